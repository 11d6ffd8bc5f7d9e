import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import { text } from '../../text';
import '../../styles/seed.css';
import { Sheet } from '../../ui/Sheet';
import { useIsPrinting } from '../../ui/printing';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import { percentOf } from '../lots/percent-of';
import { writtenMark } from '../lots/written-mark';
import type { RecalledLot } from './hold-queries';

const words = text.holds;
const shownAtFirst = 40;

/** Each holder of some of it, with what they have: whom to call, and about what. */
export function RecalledLots({ items }: { items: RecalledLot[] }) {
  const [shown, setShown] = useState(shownAtFirst);
  const isPrinting = useIsPrinting();
  const listed = isPrinting ? items : items.slice(0, shown);
  return (
    <>
      {[...byHolder(listed)].map(([holderId, lots]) => (
        <Sheet key={holderId} title={lots[0]?.holder.name ?? ''}>
          <ul className="recalled">
            {lots.map((lot) => (
              <Recalled key={lot.lotId} lot={lot} />
            ))}
          </ul>
        </Sheet>
      ))}
      {listed.length < items.length && (
        <Button variant="default" w="fit-content" onClick={() => setShown(shown + 200)}>
          {text.frame.more}
        </Button>
      )}
    </>
  );
}

function byHolder(items: readonly RecalledLot[]): Map<string, RecalledLot[]> {
  const found = new Map<string, RecalledLot[]>();
  for (const item of items) {
    found.set(item.holder.id, [...(found.get(item.holder.id) ?? []), item]);
  }
  return found;
}

function Recalled({ lot }: { lot: RecalledLot }) {
  const times = useTimes();
  const { mass } = useUnitWords();
  const pots = lot.pots.map(({ count, netMassKg }) => words.pots(count, mass(netMassKg)));
  const where = [
    ...(lot.inLotsKg > 0 ? [words.stillThere(mass(lot.inLotsKg), mass(lot.remainingMassKg))] : []),
    ...(lot.pottedKg > 0 ? [[words.inPots(mass(lot.pottedKg)), ...pots].join(': ')] : []),
    ...(lot.withdrawnKg > 0 ? [words.withdrawnOf(mass(lot.withdrawnKg))] : []),
    ...(lot.lostKg > 0 ? [words.lostOf(mass(lot.lostKg))] : []),
    ...lot.places.map(({ station, places }) => words.standsAt(station, places)),
    ...lot.lentTo.map(({ massKg, to, at }) => words.lentTo(mass(massKg), to, times.date(at))),
    ...lot.withdrawals.map(({ kind, massKg, at, note }) =>
      [
        words.withdrawal(mass(massKg), text.lots.takeOutKinds[kind].toLowerCase(), times.date(at)),
        ...(note === '' ? [] : [note]),
      ].join(': '),
    ),
  ];
  return (
    <li>
      <div className="recalled-head">
        <Link href={`/lots/${lot.lotId}`}>{lot.name}</Link>
        <span className="soft">{writtenMark(lot.code)}</span>
        {lot.onHold.length > 0 && <strong className="hold-mark">⚠ {words.mark}</strong>}
      </div>
      <div className="recalled-share numbers">
        {words.share(percentOf(lot.share), mass(lot.suspectMassKg))}
      </div>
      <ul className="plain-list">
        {where.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
    </li>
  );
}
