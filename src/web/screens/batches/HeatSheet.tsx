import { List, Text } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { threeFigures } from '../../ui/numbers';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';

/** What warming cost, and whether the honey keeps. */
export function HeatSheet({ batchId }: { batchId: string }) {
  const { clubId } = useClub();
  const reckoning = useQuery({
    queryKey: ['reckoning', clubId, batchId],
    queryFn: () =>
      answer(
        api.GET('/api/v1/clubs/{clubId}/batches/{batchId}/reckoning', {
          params: { path: { clubId, batchId } },
        }),
      ),
    staleTime: 300_000,
  });
  return (
    <Sheet title={text.batches.heat}>
      <Loaded query={reckoning}>
        {({ heat, fermentation, grain, notReckoned }) => (
          <>
            {heat?.evenly && (
              <List>
                <List.Item>
                  {text.batches.diastase(threeFigures(heat.evenly.diastaseLeftPercent))}
                </List.Item>
                <List.Item>
                  {text.batches.hmf(
                    threeFigures(heat.evenly.hmfGain.leastMgPerKg),
                    threeFigures(heat.evenly.hmfGain.mostMgPerKg),
                  )}
                </List.Item>
              </List>
            )}
            {[fermentation?.warning, grain?.warning]
              .filter((warning) => typeof warning === 'string')
              .map((warning) => (
                <Text key={warning} fw={600}>
                  {warning}
                </Text>
              ))}
            {notReckoned.map(({ part, reason }) => (
              <Text key={part} className="soft" size="sm">
                {reason}
              </Text>
            ))}
          </>
        )}
      </Loaded>
    </Sheet>
  );
}
