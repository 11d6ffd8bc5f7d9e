import { text } from '../../text';
import { useUnitWords } from '../../ui/units';
import { writtenMark } from '../lots/written-mark';
import { Composition, OnHoldMark, SeedName, Stands, Texture } from './SeedFacts';
import type { ShelfSeed } from './seed-queries';
import { ShelfAction } from './ShelfAction';

const words = text.seed;

/** The shelf as it is read on a phone, one card a tub. */
export function ShelfCards({ lots }: { lots: ShelfSeed[] }) {
  return (
    <ul className="cards">
      {lots.map((lot) => (
        <li key={lot.lotId} className="sheet seed-card">
          <div className="seed-card-head">
            <SeedName lot={lot} />
            <Free lot={lot} />
          </div>
          <OnHoldMark lot={lot} />
          <p>
            <span className="soft">{writtenMark(lot.code)} · </span>
            {lot.holder.name} ·{' '}
            {lot.grain === null ? words.grainUnknown : text.lots.grain(text.lots.grains[lot.grain])}
            {' · '}
            {words.generation(lot.generation)} · {words.days(lot.ageDays)}
          </p>
          <p>
            <Composition lot={lot} />
          </p>
          {lot.texture.score !== null && (
            <p>
              <Texture lot={lot} />
            </p>
          )}
          {lot.standsAt !== null && (
            <p>
              <Stands lot={lot} />
            </p>
          )}
          <ShelfAction lot={lot} />
        </li>
      ))}
    </ul>
  );
}

/** What may be taken, and why not all that is left. */
export function Free({ lot }: { lot: ShelfSeed }) {
  const { mass } = useUnitWords();
  const notes = [
    ...(lot.reservedMassKg > 0 ? [words.reserved(mass(lot.reservedMassKg))] : []),
    ...(lot.lentOutMassKg > 0 ? [words.lentOut(mass(lot.lentOutMassKg))] : []),
  ];
  return (
    <span className="numbers seed-free">
      <strong>{mass(lot.freeMassKg)}</strong>
      {notes.map((note) => (
        <span key={note} className="soft">
          {note}
        </span>
      ))}
    </span>
  );
}
