import { Button, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { useUnitWords } from '../../ui/units';

const words = text.holds;

/** A practised trace of a lot: measured, kept, and nobody is told. */
export function DrillButton({ lotId }: { lotId: string }) {
  const { clubId } = useClub();
  const { mass } = useUnitWords();
  const drill = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/lots/{id}/recall-drills', {
          params: { path: { clubId, id: lotId } },
        }),
      ),
    onSuccess: readAnew,
  });
  return (
    <>
      <Button
        className="no-print"
        variant="default"
        w="fit-content"
        loading={drill.isPending}
        onClick={() => drill.mutate()}
      >
        {words.drill}
      </Button>
      {drill.isError && <Failure error={drill.error} />}
      {drill.data !== undefined && (
        <Text role="status" className="no-print">
          {words.drilled(
            drill.data.durationMs,
            drill.data.lots,
            drill.data.holders,
            mass(drill.data.foundKg),
          )}
        </Text>
      )}
    </>
  );
}
