import { Button } from '@mantine/core';
import { useState } from 'react';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { AskForm } from '../loans/AskForm';
import { OfferForm } from '../loans/OfferForm';
import type { ShelfSeed } from './seed-queries';

/** What is done with seed on the shelf: one's own is offered or handed over, another's is asked for. The first tap opens it, the second does it. */
export function ShelfAction({ lot }: { lot: ShelfSeed }) {
  const { memberId } = useClub();
  const [isOpen, setOpen] = useState(false);
  const close = () => setOpen(false);
  if (lot.onHold) return null;
  const isMine = lot.holder.id === memberId;
  if (!isOpen) {
    return (
      <Button
        className="no-print"
        variant="default"
        w="fit-content"
        aria-label={`${isMine ? text.loans.lendSome : text.loans.askSome}: ${lot.name}`}
        onClick={() => setOpen(true)}
      >
        {isMine ? text.loans.lendSome : text.loans.askSome}
      </Button>
    );
  }
  const given = { id: lot.lotId, name: lot.name, freeMassKg: lot.freeMassKg };
  return isMine ? (
    <OfferForm lot={given} onDone={close} onCancel={close} />
  ) : (
    <AskForm lot={given} holder={lot.holder} onDone={close} onCancel={close} />
  );
}
