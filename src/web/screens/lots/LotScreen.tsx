import { Text } from '@mantine/core';
import { Link, useParams } from 'wouter';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Cautions } from '../../ui/Cautions';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { Sheet } from '../../ui/Sheet';
import { useUnitWords } from '../../ui/units';
import { AskForm } from '../loans/AskForm';
import { LotLoans } from '../loans/LotLoans';
import { OfferForm } from '../loans/OfferForm';
import { CorrectionSheet } from './CorrectionSheet';
import { HoldSheet } from './HoldSheet';
import { Lineage } from './Lineage';
import { LineageWalk } from './LineageWalk';
import { LotByMark } from './LotByMark';
import { useLot, type Lot } from './lot-queries';
import { Prints } from './Prints';
import { TakeOutForm } from './TakeOutForm';
import { writtenMark } from './written-mark';
import { decimals } from '../../ui/numbers';

const words = text.lots;

/** One lot: whose, how much, what is in it, where it comes from and where it went. */
export function LotScreen() {
  const { id } = useParams<{ id: string }>();
  return isId(id) ? <LotOfId id={id} /> : <LotByMark mark={id} />;
}

function isId(text: string): boolean {
  return /^[0-9a-f]{8}-[0-9a-f-]{27}$/.test(text);
}

function LotOfId({ id }: { id: string }) {
  const lot = useLot(id);
  const { memberId, role } = useClub();
  return (
    <Loaded query={lot}>
      {(found) => {
        const mayMove =
          found.remainingMassKg > 0 && (found.holder.id === memberId || role === 'steward');
        return (
          <Screen title={found.name}>
            <div className="columns">
              <div>
                {found.onHold.length > 0 && <HoldSheet lot={found} />}
                <About lot={found} />
                {found.kind === 'seed' &&
                  found.remainingMassKg > 0 &&
                  found.onHold.length === 0 && (
                    <div className="no-print">
                      <Lending lot={found} />
                    </div>
                  )}
              </div>
              <div>
                {found.onHold.length === 0 && <HoldSheet lot={found} />}
                {found.kind === 'seed' && <LotLoans lotId={found.id} />}
                {mayMove && (
                  <div className="no-print">
                    <TakeOutForm lot={found} />
                  </div>
                )}
              </div>
            </div>
            <LineageWalk key={found.id} lotId={found.id} />
            <Lineage lotId={found.id} />
            <div className="columns no-print">
              <div>
                <Prints lot={found} />
              </div>
              <div>{found.inputMassKg > 0 && <CorrectionSheet lot={found} />}</div>
            </div>
            <Cautions />
          </Screen>
        );
      }}
    </Loaded>
  );
}

/** One's own seed is handed over or offered; another's is asked for. A steward may lend it in its holder's name. */
function Lending({ lot }: { lot: Lot }) {
  const { memberId, role } = useClub();
  if (lot.holder.id === memberId) {
    return (
      <Sheet title={words.lend}>
        <OfferForm lot={lot} />
      </Sheet>
    );
  }
  return (
    <Sheet title={text.loans.askSome}>
      <AskForm lot={lot} holder={lot.holder} />
      {role === 'steward' && (
        <details>
          <summary>{text.loans.lendFor(lot.holder.name)}</summary>
          <OfferForm lot={lot} holderId={lot.holder.id} />
        </details>
      )}
    </Sheet>
  );
}

type MassName = keyof typeof words.massWords;

function About({ lot }: { lot: Lot }) {
  const { mass } = useUnitWords();
  const masses = (Object.entries(words.massWords) as [MassName, string][]).filter(
    ([name]) => lot[name] > 0,
  );
  return (
    <Sheet title={words.kinds[lot.kind]}>
      <Text size="xl" fw={600}>
        {words.left(mass(lot.remainingMassKg), mass(lot.initialMassKg))}
      </Text>
      <ul className="plain-list">
        <li>{words.code(writtenMark(lot.code))}</li>
        <li>
          {words.heldBy} {lot.holder.name}
        </li>
        {lot.grain !== null && <li>{words.grain(words.grains[lot.grain])}</li>}
        {lot.moisturePercent !== null && <li>{words.moisture(decimals(lot.moisturePercent))}</li>}
        {lot.origin !== '' && <li>{words.from(lot.origin)}</li>}
        <li>
          {lot.floralShares.map(({ name, percent }) => `${name} ${decimals(percent)} %`).join(', ')}
        </li>
        {lot.note !== '' && <li>{lot.note}</li>}
        {lot.batchId !== null && (
          <li>
            <Link href={`/batches/${lot.batchId}`}>{words.madeBy}</Link>
          </li>
        )}
      </ul>
      {masses.length > 1 && (
        <>
          <Text mt="md" fw={600}>
            {words.masses}
          </Text>
          <ul className="rows">
            {masses.map(([name, label]) => (
              <li key={name} className="row">
                {label}
                <span className="numbers">{mass(lot[name])}</span>
              </li>
            ))}
          </ul>
        </>
      )}
    </Sheet>
  );
}
