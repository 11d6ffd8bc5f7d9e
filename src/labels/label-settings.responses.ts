import type { LabelSettings } from '../core/labels/label-settings';
import { Decimal, Id, OneOf, Part, SharePercent, Text, Whole, YesNo } from '../platform/fields';
import { OriginStyle } from '../platform/prisma-client/enums';

export class LabelWordsResponse {
  @Text({ max: 60 })
  creamedHoney!: string;

  @Text({ max: 60 })
  honey!: string;

  @Text({ max: 60 })
  seed!: string;

  @Text({ max: 60 })
  blend!: string;

  @Text({ max: 60 })
  origin!: string;

  @Text({ max: 60 })
  bestBefore!: string;

  @Text({ max: 200 })
  storage!: string;

  @Text({ max: 200 })
  infants!: string;

  @Text({ max: 60 })
  onHold!: string;
}

export class LabelSettingsResponse {
  @Id()
  clubId!: string;

  @Text({ min: 0, max: 300 })
  producer!: string;

  @SharePercent()
  singleSourcePercent!: number;

  @OneOf(OriginStyle)
  origins!: OriginStyle;

  @Whole({ min: 1, max: 120, nullable: true })
  bestBeforeMonths!: number | null;

  @YesNo()
  eMark!: boolean;

  @Decimal({ min: 4, max: 20, decimals: 1 })
  quantityHeightMm!: number;

  @Text({ max: 35 })
  language!: string;

  @Part(() => LabelWordsResponse)
  words!: LabelWordsResponse;

  @Text({ max: 300 })
  caution!: string;
}

export function toLabelSettingsResponse(
  clubId: string,
  settings: LabelSettings,
): LabelSettingsResponse {
  return {
    clubId,
    producer: settings.producer,
    singleSourcePercent: settings.singleSourceCentiPercent / 100,
    origins: settings.origins,
    bestBeforeMonths: settings.bestBeforeMonths,
    eMark: settings.eMark,
    quantityHeightMm: settings.quantityHeightTenthMm / 10,
    language: settings.language,
    words: settings.words,
    caution:
      'What must stand on a label, in which language and how large, is local law: ask the local authority or a licensed practitioner.',
  };
}
