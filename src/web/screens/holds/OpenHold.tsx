import { Alert, Stack, Text } from '@mantine/core';
import { Link } from 'wouter';
import { useClub } from '../../api/club';
import { text } from '../../text';
import '../../styles/seed.css';
import { Loaded } from '../../ui/Loaded';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import { useHold, type Hold, type HoldSummary } from './hold-queries';
import { ReleaseForm } from './ReleaseForm';

const words = text.holds;

/** An open hold: why, by whom, what it reaches, and its release. `atLotId`: the lot at which somebody looks at it. */
export function OpenHold({ id, atLotId }: { id: string; atLotId?: string }) {
  const hold = useHold(id);
  const times = useTimes();
  const { memberId, role } = useClub();
  return (
    <Alert className="open-hold" color="red" variant="light" title={words.onHold}>
      <Loaded query={hold}>
        {(found) => (
          <Stack gap="xs">
            {atLotId === undefined ? (
              <Link href={`/lots/${found.lot.id}`} className="seed-name">
                ⚠ {found.lot.name}
              </Link>
            ) : (
              found.lot.id !== atLotId && (
                <Link href={`/lots/${found.lot.id}`}>{words.from(found.lot.name)}</Link>
              )
            )}
            <Text>
              {found.reason} {found.evidence}
            </Text>
            <Text>{words.placedBy(found.placedBy.name, times.date(found.placedAt))}</Text>
            <Reach hold={found} />
            <BranchReleases hold={found} />
            {found.lot.id !== atLotId && (
              <Link href={`/lots/${found.lot.id}/recall`}>{words.recall}</Link>
            )}
            {role === 'steward' || found.placedBy.id === memberId ? (
              <details className="no-print">
                <summary>{words.release}</summary>
                <ReleaseForm hold={found} {...(atLotId !== undefined && { branchId: atLotId })} />
              </details>
            ) : (
              <Text>{words.whoReleases(found.placedBy.name)}</Text>
            )}
          </Stack>
        )}
      </Loaded>
    </Alert>
  );
}

function Reach({ hold: { reached } }: { hold: Hold }) {
  const { mass } = useUnitWords();
  const holders = new Set(reached.map(({ holder }) => holder.id)).size;
  const leftKg = reached.reduce((sum, { remainingMassKg }) => sum + remainingMassKg, 0);
  return (
    <details>
      <summary>{words.reaches(reached.length, holders, mass(leftKg))}</summary>
      <ul className="rows">
        {reached.map((lot) => (
          <li key={lot.lotId}>
            <Link href={`/lots/${lot.lotId}`} className="row">
              <span>
                {lot.name}
                <span className="soft">
                  {text.lots.kinds[lot.kind]} · {lot.holder.name}
                </span>
              </span>
              <span className="row-end numbers">{mass(lot.remainingMassKg)}</span>
            </Link>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** What was found good, by whom and on what evidence. */
export function BranchReleases({ hold }: { hold: HoldSummary }) {
  const times = useTimes();
  return hold.branchReleases.map(({ lot, by, at, because, evidence }) => (
    <Text key={lot.id}>
      {words.branchReleased(lot.name, by.name, times.date(at))} {because} {evidence}
    </Text>
  ));
}
