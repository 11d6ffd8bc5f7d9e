import { liquidPhaseWaterPercent } from '../core/honey/crystals';
import { fermentationClass } from '../core/honey/fermentation';
import { CRYSTAL_PERCENT } from './assumptions';
import { NotKnown, rounded } from './reckoned';
import type { FermentationReckoning } from './fermentation.responses';

const MOISTEST_PERCENT = 30;

/** How liable the honey is to ferment, as it is and once it has set. */
export function fermentationOf(moisturePercent: number | null): FermentationReckoning | NotKnown {
  if (moisturePercent === null) return new NotKnown('The moisture of the honey is not known.');
  const found = fermentationClass(moisturePercent);
  const liquidPercent = liquidPhaseWaterPercent({
    waterPercent: moisturePercent,
    crystalPercent: CRYSTAL_PERCENT,
  });
  // Wetter than the class has a range for is in danger all the same.
  const afterSetting = fermentationClass(Math.min(MOISTEST_PERCENT, liquidPercent));
  return {
    class: found.kind,
    safeBelowYeastPerG: 'yeastPerG' in found ? found.yeastPerG : null,
    crystalPercent: CRYSTAL_PERCENT,
    liquidMoisturePercent: rounded(liquidPercent, 2),
    classAfterSetting: afterSetting.kind,
    safeBelowYeastPerGAfterSetting: 'yeastPerG' in afterSetting ? afterSetting.yeastPerG : null,
    warning: warningOf(found, afterSetting),
    source:
      'Lochhead 1933 (honeys kept for a year); the liquid between the crystals by mass balance. Crystals: common practice, no source.',
  };
}

type Found = ReturnType<typeof fermentationClass>;

function warningOf(now: Found, afterSetting: Found): string | null {
  if (now.kind === 'always-in-danger') {
    return 'The honey is moist enough to ferment whatever its yeast count: do not put it by without drying it or keeping it cold.';
  }
  if (now.kind === 'safe-below-count') {
    return `The honey keeps only with fewer than ${now.yeastPerG} yeasts in a gram; what stays liquid once it has set is moister still: keep it cool.`;
  }
  if (afterSetting.kind !== 'safe') {
    return 'The honey keeps as it is; what stays liquid between the crystals once it has set is moister and may not: keep it cool.';
  }
  return null;
}
