import { Button, Checkbox, Group, SegmentedControl } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Folded } from '../../ui/Folded';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { useUnitWords } from '../../ui/units';
import { GoToMark } from '../seed/GoToMark';
import { SeedWays } from '../seed/SeedWays';
import { Shelf } from '../seed/Shelf';
import { useLots, type Lot } from './lot-queries';
import { writtenMark } from './written-mark';

const words = text.lots;
const shownAtFirst = 60;

/** What stands in the club's stores, seed first. */
export function Lots() {
  const [kind, setKind] = useState<Lot['kind']>('seed');
  return (
    <Screen title={words.title}>
      <SeedWays here="shelf" />
      <Group className="no-print" align="flex-end">
        <SegmentedControl
          aria-label={words.what}
          value={kind}
          onChange={setKind}
          data={(Object.entries(words.kinds) as [Lot['kind'], string][]).map(([value, label]) => ({
            value,
            label,
          }))}
        />
        <GoToMark />
        <Button component={Link} href="/lots/new">
          {words.bringIn}
        </Button>
      </Group>
      {kind === 'seed' ? (
        <>
          <Shelf />
          <Folded summary={words.usedUp} className="sheet no-print">
            {() => <UsedUp />}
          </Folded>
        </>
      ) : (
        <OtherLots key={kind} kind={kind} />
      )}
    </Screen>
  );
}

/** Seed of which nothing is left, for whoever looks for where something went. */
function UsedUp() {
  const lots = useLots({ kind: 'seed', withMass: false });
  return (
    <Loaded query={lots}>
      {(items) => {
        const empty = items.filter(({ remainingMassKg }) => remainingMassKg === 0);
        return empty.length === 0 ? <Empty>{words.none}</Empty> : <LotList lots={empty} />;
      }}
    </Loaded>
  );
}

/** Honey and creamed honey, with what is used up where that is asked for. */
function OtherLots({ kind }: { kind: Lot['kind'] }) {
  const [withMass, setWithMass] = useState(true);
  const lots = useLots({ kind, withMass });
  return (
    <>
      <Checkbox
        label={words.withMass}
        checked={withMass}
        onChange={(event) => setWithMass(event.currentTarget.checked)}
      />
      <Loaded query={lots}>
        {(items) => (items.length === 0 ? <Empty>{words.none}</Empty> : <LotList lots={items} />)}
      </Loaded>
    </>
  );
}

function LotList({ lots }: { lots: Lot[] }) {
  const [shown, setShown] = useState(shownAtFirst);
  const { mass } = useUnitWords();
  return (
    <>
      <ul className="rows">
        {lots.slice(0, shown).map((lot) => (
          <li key={lot.id}>
            <Link href={`/lots/${lot.id}`} className="row">
              <span>
                <strong>
                  {lot.onHold.length > 0 && <span className="late">⚠ </span>}
                  {lot.name}
                </strong>
                <span className="soft">
                  {writtenMark(lot.code)} · {lot.holder.name}
                  {lot.grain !== null && ` · ${words.grain(words.grains[lot.grain])}`}
                  {lot.floralShares.length > 0 &&
                    ` · ${lot.floralShares.map(({ name }) => name).join(', ')}`}
                </span>
              </span>
              <span className="row-end numbers">
                {mass(lot.remainingMassKg)}
                <Left lot={lot} />
              </span>
            </Link>
          </li>
        ))}
      </ul>
      {lots.length > shown && (
        <Button variant="default" onClick={() => setShown(shown + 100)}>
          {text.frame.more}
        </Button>
      )}
    </>
  );
}

/** How full the tub still is, drawn as a tub. */
function Left({ lot }: { lot: Lot }) {
  const share = lot.remainingMassKg / lot.initialMassKg;
  return (
    <svg width="26" height="20" viewBox="0 0 26 20" aria-hidden="true">
      <clipPath id={`tub-${lot.id}`}>
        <path d="M2 2h22l-3 16H5z" />
      </clipPath>
      <rect
        x="0"
        y={18 - 16 * share}
        width="26"
        height={16 * share}
        fill="var(--mantine-color-comb-4)"
        clipPath={`url(#tub-${lot.id})`}
      />
      <path d="M2 2h22l-3 16H5z" fill="none" stroke="currentColor" strokeWidth="1.5" />
    </svg>
  );
}
