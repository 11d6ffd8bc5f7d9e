import { Button } from '@mantine/core';
import { useState } from 'react';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { AskForm } from '../loans/AskForm';
import { OfferForm } from '../loans/OfferForm';
import type { ShelfSeed } from './seed-queries';

/** What is done with seed on the shelf: one's own is offered or handed over, another's is asked for. The first tap opens it, the second does it. */
export function ShelfAction({ lot }: { lot: ShelfSeed }) {
  const [isOpen, setOpen] = useState(false);
  if (lot.onHold) return null;
  return isOpen ? (
    <ShelfForm lot={lot} onEnd={() => setOpen(false)} />
  ) : (
    <ShelfButton lot={lot} onOpen={() => setOpen(true)} />
  );
}

export function ShelfButton({ lot, onOpen }: { lot: ShelfSeed; onOpen: () => void }) {
  const { memberId } = useClub();
  const words = lot.holder.id === memberId ? text.loans.lendSome : text.loans.askSome;
  return (
    <Button
      className="no-print"
      variant="default"
      w="fit-content"
      aria-label={`${words}: ${lot.name}`}
      onClick={onOpen}
    >
      {words}
    </Button>
  );
}

export function ShelfForm({ lot, onEnd }: { lot: ShelfSeed; onEnd: () => void }) {
  const { memberId } = useClub();
  const given = { id: lot.lotId, name: lot.name, freeMassKg: lot.freeMassKg };
  return lot.holder.id === memberId ? (
    <OfferForm lot={given} onDone={onEnd} onCancel={onEnd} />
  ) : (
    <AskForm lot={given} holder={lot.holder} onDone={onEnd} onCancel={onEnd} />
  );
}
