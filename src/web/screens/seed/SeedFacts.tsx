import { Link } from 'wouter';
import { text } from '../../text';
import { locale } from '../../text/locale';
import '../../styles/seed.css';
import { useTimes } from '../../ui/times';
import type { ShelfSeed } from './seed-queries';
import { decimals } from '../../ui/numbers';

const words = text.seed;
const partsShown = 3;

/** The name of a lot as a way to it; what is on hold says so. */
export function SeedName({ lot }: { lot: ShelfSeed }) {
  return (
    <Link href={`/lots/${lot.lotId}`} className="seed-name">
      {lot.onHold && <span className="late">⚠ </span>}
      {lot.name}
    </Link>
  );
}

export function OnHoldMark({ lot }: { lot: ShelfSeed }) {
  return lot.onHold ? <strong className="hold-mark">⚠ {words.onHold}</strong> : null;
}

/** Floral sources over all ancestors, the most first, and the countries. */
export function Composition({ lot }: { lot: ShelfSeed }) {
  const parts = [...lot.floralComposition].sort((a, b) => b.share - a.share);
  const more = parts.length - partsShown;
  const floral = parts
    .slice(0, more === 1 ? partsShown + 1 : partsShown)
    .map(({ name, share }) => `${name ?? words.unknownPart} ${percent(share)}`);
  if (more > 1) floral.push(words.moreParts(more));
  const origins = [...lot.originComposition]
    .sort((a, b) => b.share - a.share)
    .map(({ countryCode, share }) =>
      share === 1 ? countryName(countryCode) : `${countryName(countryCode)} ${percent(share)}`,
    );
  return (
    <>
      {floral.join(', ')}
      <br />
      <span className="soft">{words.from(origins.join(', '))}</span>
    </>
  );
}

/** How smooth the batches became, and on how many it rests. */
export function Texture({ lot: { texture } }: { lot: ShelfSeed }) {
  if (texture.score === null) return <span className="soft">{words.textureUnknown}</span>;
  return (
    <>
      <TextureMark score={texture.score} />
      {words.texture(decimals(texture.score, 2))}
      <br />
      <span className="soft">{words.textureRests(texture.batches)}</span>
    </>
  );
}

/** Grains in a pot: the rougher the batches, the more of them. */
function TextureMark({ score }: { score: number }) {
  const grains = Math.round((1 - score) * 6);
  return (
    <svg className="texture-mark" width="22" height="14" viewBox="0 0 22 14" aria-hidden="true">
      <path d="M1 1h20l-2 12H3z" fill="none" stroke="currentColor" strokeWidth="1.4" />
      {Array.from({ length: grains }, (_, index) => (
        <circle key={index} cx={5.5 + (index % 3) * 5.5} cy={index < 3 ? 9.5 : 5} r="1.5" />
      ))}
    </svg>
  );
}

export function Stands({ lot: { standsAt } }: { lot: ShelfSeed }) {
  const times = useTimes();
  if (standsAt === null) return <span className="soft">{words.standsUnknown}</span>;
  return words.stands(standsAt.stationName, standsAt.places.join(', '), times.day(standsAt.until));
}

const countries = new Intl.DisplayNames(locale, { type: 'region', fallback: 'code' });

function countryName(code: string | null): string {
  return code === null ? words.unknownPart : (countries.of(code) ?? code);
}

function percent(share: number): string {
  const value = share * 100;
  if (value > 0 && value < 0.1) return '< 0.1 %';
  return `${decimals(value, value < 1 ? 1 : 0)} %`;
}
