import { Text } from '@mantine/core';
import { Link } from 'wouter';
import { text } from '../../text';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { useLoans } from './loan-queries';
import { LoanCard } from './LoanCard';

const words = text.loans;

/** The loans that a lot of seed was lent from, made by, or given back from. */
export function LotLoans({ lotId }: { lotId: string }) {
  const loans = useLoans({ lotId });
  return (
    <Sheet title={words.ofLot} aside={<Link href="/seed/loans">{words.allLoans}</Link>}>
      <Loaded query={loans}>
        {(items) =>
          items.length === 0 ? (
            <Text className="soft">{words.none}</Text>
          ) : (
            <ul className="loans">
              {items.map((loan) => (
                <LoanCard key={loan.id} loan={loan} isForAll />
              ))}
            </ul>
          )
        }
      </Loaded>
    </Sheet>
  );
}
