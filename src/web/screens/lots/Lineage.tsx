import { Button, Text } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import { text } from '../../text';
import { locale } from '../../text/locale';
import { Loaded } from '../../ui/Loaded';
import { useIsPrinting } from '../../ui/printing';
import { Sheet } from '../../ui/Sheet';
import { useUnitWords } from '../../ui/units';
import { useAncestors, useDescendants, type RelatedLot } from './lot-queries';
import { percentOf } from './percent-of';

const words = text.lots;
const shownAtFirst = 10;

/** Where a lot comes from, with exact shares over all paths, and where it went. */
export function Lineage({ lotId }: { lotId: string }) {
  const ancestors = useAncestors(lotId);
  const descendants = useDescendants(lotId);
  return (
    <div className="columns">
      <Sheet title={words.ancestors}>
        <Loaded query={ancestors}>
          {({ items, generation, firstSeedShare }) => (
            <>
              {generation !== null && generation > 0 && (
                <Text>
                  {words.generation(generation)}{' '}
                  {firstSeedShare > 0 && words.firstSeed(oneIn(firstSeedShare))}
                </Text>
              )}
              <Relatives label={words.ancestors} lots={items} none={words.noAncestors} />
            </>
          )}
        </Loaded>
      </Sheet>
      <Sheet title={words.descendants}>
        <Loaded query={descendants}>
          {({ items }) => (
            <Relatives label={words.descendants} lots={items} none={words.noDescendants} />
          )}
        </Loaded>
      </Sheet>
    </div>
  );
}

function Relatives({ label, lots, none }: { label: string; lots: RelatedLot[]; none: string }) {
  const [isOpened, setOpened] = useState(false);
  const isPrinting = useIsPrinting();
  const isAll = isOpened || isPrinting;
  const { mass } = useUnitWords();
  if (lots.length === 0) return <Text className="soft">{none}</Text>;
  return (
    <>
      <div className="scroll-x" tabIndex={0} role="region" aria-label={label}>
        <table className="plain">
          <thead>
            <tr>
              <th scope="col">{words.lot}</th>
              <th scope="col">{words.holder}</th>
              <th scope="col" className="numbers">
                {words.share}
              </th>
            </tr>
          </thead>
          <tbody>
            {(isAll ? lots : lots.slice(0, shownAtFirst)).map((lot) => (
              <tr key={lot.lotId}>
                <th scope="row">
                  <Link href={`/lots/${lot.lotId}`}>{lot.name}</Link>
                </th>
                <td>{lot.holder.name}</td>
                <td className="numbers">
                  {percentOf(lot.share)}
                  <br />
                  <span className="soft">{mass(lot.massKg)}</span>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {!isAll && lots.length > shownAtFirst && (
        <Button variant="subtle" onClick={() => setOpened(true)}>
          {text.frame.more}
        </Button>
      )}
    </>
  );
}

/** A small share as people say it. */
function oneIn(share: number): string {
  if (share > 0.01) return percentOf(share);
  return words.oneIn((1 / share).toLocaleString(locale, { maximumSignificantDigits: 2 }));
}
