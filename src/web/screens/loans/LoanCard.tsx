import { Text } from '@mantine/core';
import { Link } from 'wouter';
import { useClub } from '../../api/club';
import { text } from '../../text';
import '../../styles/seed.css';
import { dayWords, useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import type { Loan } from './loan-queries';
import { deedsOf, loanSentence } from './loan-words';
import { LoanDeeds } from './LoanDeeds';

const words = text.loans;

/** One loan: who, how much, what is still owed, and what may be done about it. `isForAll`: a steward looks after other members' loans, too. */
export function LoanCard({ loan, isForAll = false }: { loan: Loan; isForAll?: boolean }) {
  const { memberId, role } = useClub();
  const { mass } = useUnitWords();
  const deeds = deedsOf(loan, memberId, isForAll && role === 'steward');
  return (
    <li className={loan.overdue ? 'loan is-late' : 'loan'}>
      <Text fw={600}>{loanSentence(loan, memberId, mass(loan.massKg))}</Text>
      <Facts loan={loan} />
      {loan.note !== '' && <Text className="soft">“{loan.note}”</Text>}
      {deeds.length > 0 && <LoanDeeds loan={loan} deeds={deeds} />}
    </li>
  );
}

function Facts({ loan }: { loan: Loan }) {
  const times = useTimes();
  const { mass } = useUnitWords();
  const lot = loan.toLot !== null ? loan.toLot : loan.fromLot;
  const facts = [
    ...(loan.state === 'lent' && loan.owedMassKg !== loan.massKg
      ? [words.stillOwed(mass(loan.owedMassKg))]
      : []),
    ...(loan.returnedMassKg > 0 && loan.state !== 'returned'
      ? [words.returned(mass(loan.returnedMassKg))]
      : []),
    ...(loan.forgivenMassKg > 0 ? [words.forgiven(mass(loan.forgivenMassKg))] : []),
    ...(loan.endedAt === null ? [words.since(times.date(loan.at ?? loan.begunAt))] : []),
    ...(loan.dueOn !== null && loan.endedAt === null && !loan.overdue
      ? [words.due(dayWords(loan.dueOn))]
      : []),
    ...(loan.endedAt !== null
      ? [words.ended(loan.endedBy?.name ?? '', times.date(loan.endedAt))]
      : []),
    ...(loan.endedBecause !== '' ? [`“${loan.endedBecause}”`] : []),
  ];
  return (
    <Text className="soft">
      {loan.overdue && loan.dueOn !== null && (
        <strong className="late">⚠ {words.overdue(dayWords(loan.dueOn))} · </strong>
      )}
      {lot !== null && (
        <>
          <Link href={`/lots/${lot.id}`}>{lot.name}</Link>
          {' · '}
        </>
      )}
      {facts.join(' · ')}
    </Text>
  );
}
