import { Button, Progress, Stack, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Sheet } from '../../ui/Sheet';
import { PartRefused, sendFile } from './send-file';
import { decimals } from '../../ui/numbers';

const words = text.probes;

/** A logger's file is chosen and sent; how far it is, and what came of it. */
export function SendFile({ probeId }: { probeId: string }) {
  const { clubId } = useClub();
  const [progress, setProgress] = useState<{ sent: number; rows: number } | null>(null);
  const send = useMutation({
    mutationFn: async (file: File) =>
      sendFile(
        `/api/v1/clubs/${clubId}/probes/${probeId}/readings`,
        await file.text(),
        (sent, rows) => setProgress({ sent, rows }),
      ),
    onSuccess: readAnew,
  });
  const part = send.error instanceof PartRefused ? send.error : null;
  return (
    <Sheet title={words.send}>
      <Stack>
        <Text size="sm">{words.sendHint}</Text>
        <label className="file-choice">
          <span>{words.file}</span>
          <input
            type="file"
            accept=".csv,text/csv,text/plain"
            disabled={send.isPending}
            onChange={(event) => {
              const file = event.currentTarget.files?.[0];
              if (file === undefined) return;
              setProgress(null);
              send.mutate(file);
              // So that the same file can be chosen again.
              event.currentTarget.value = '';
            }}
          />
        </label>
        <div role="status" aria-live="polite">
          {progress !== null && progress.rows > 0 && !send.isSuccess && (
            <>
              <Progress
                size="lg"
                aria-label={words.send}
                value={(100 * progress.sent) / progress.rows}
              />
              <Text>{words.sending(decimals(progress.sent), decimals(progress.rows))}</Text>
            </>
          )}
          {send.isSuccess && (
            <Text fw={600}>
              {progress?.rows === 0
                ? words.empty
                : words.sent(decimals(send.data.stored), decimals(send.data.alreadyKnown))}
            </Text>
          )}
        </div>
        {send.isError && <Failure error={part?.refused ?? send.error} />}
        {part !== null && <Text>{words.fromLine(decimals(part.fromLine))}</Text>}
        {send.isPending && <Button loading w="fit-content" />}
      </Stack>
    </Sheet>
  );
}
