import { Text } from '@mantine/core';
import { useClub } from '../../api/club';
import { text } from '../../text';
import '../../styles/seed.css';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { useUnitWords } from '../../ui/units';
import { useLoanBalances, type LoanBalances } from './loan-queries';

const words = text.loans;

type Pair = LoanBalances['pairs'][number];

/** Who owes whom how much, both ways taken together; `isOwn`: only what the reader is in. */
export function Balances({ isOwn }: { isOwn: boolean }) {
  const { memberId } = useClub();
  const balances = useLoanBalances();
  return (
    <Sheet title={words.balances}>
      <Loaded query={balances}>
        {({ pairs }) => <Pairs pairs={isOwn ? pairs.filter(isOf(memberId)) : pairs} />}
      </Loaded>
    </Sheet>
  );
}

function isOf(memberId: string) {
  return ({ creditor, debtor }: Pair) => creditor.id === memberId || debtor.id === memberId;
}

function Pairs({ pairs }: { pairs: Pair[] }) {
  const { memberId } = useClub();
  const { mass } = useUnitWords();
  if (pairs.length === 0) return <Text className="soft">{words.even}</Text>;
  const most = Math.max(...pairs.map(({ netMassKg }) => netMassKg));
  return (
    <ul className="balances">
      {[...pairs]
        .sort((a, b) => b.netMassKg - a.netMassKg)
        .map((pair) => (
          <li key={`${pair.creditor.id} ${pair.debtor.id}`}>
            <span>{sentence(pair, memberId, mass(pair.netMassKg))}</span>
            {pair.loans.some(({ overdue }) => overdue) && (
              <span className="late">⚠ {words.late}</span>
            )}
            <svg
              className="balance"
              viewBox="0 0 100 6"
              preserveAspectRatio="none"
              aria-hidden="true"
            >
              <rect width={most === 0 ? 0 : (100 * pair.netMassKg) / most} height="6" rx="1" />
            </svg>
          </li>
        ))}
    </ul>
  );
}

function sentence({ creditor, debtor, netMassKg }: Pair, memberId: string, mass: string): string {
  if (netMassKg === 0) return words.evenWith(creditor.name, debtor.name);
  if (creditor.id === memberId) return words.owesYou(debtor.name, mass);
  if (debtor.id === memberId) return words.youOwe(creditor.name, mass);
  return words.owes(debtor.name, creditor.name, mass);
}
