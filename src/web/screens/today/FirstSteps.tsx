import { Button, Text } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { remember, useRemembered } from '../../ui/remembered';
import { Sheet } from '../../ui/Sheet';
import { useFloralSources, useMembers, useStations } from '../club/club-queries';

const words = text.today.firstSteps;
const hoursAt = '/club/hours';

/** What a new club needs before its first batch, for its steward; gone when all of it is there, or enough of it. */
export function FirstSteps() {
  const { clubId, role } = useClub();
  const isEnough = useRemembered(`first-steps-${clubId}`) !== null;
  return role === 'steward' && !isEnough ? <Steps /> : null;
}

function Steps() {
  const { clubId } = useClub();
  const stations = useStations();
  const sources = useFloralSources();
  const members = useMembers();
  const hours = useQuery({
    queryKey: ['opening-hours', clubId, 'are-set'],
    queryFn: async () =>
      (
        await answer(
          api.GET('/api/v1/clubs/{clubId}/opening-hours', { params: { path: { clubId } } }),
        )
      ).hours.length > 0,
  });
  if (!stations.data || !sources.data || !members.data || hours.data === undefined) return null;
  const steps = [
    { ...words.station, href: '/club/stations', isDone: stations.data.length > 0 },
    { ...words.source, href: '/club/floral-sources', isDone: sources.data.length > 0 },
    { ...words.hours, href: hoursAt, isDone: hours.data },
    { ...words.invite, href: '/club/members', isDone: members.data.length > 1 },
  ];
  // Many rooms are open day and night: that alone is no reason to go on asking.
  if (steps.every(({ href, isDone }) => isDone || href === hoursAt)) return null;
  const next = steps.find(({ isDone }) => !isDone)?.href;
  return (
    <div className="first-steps no-print">
      <Sheet title={words.title}>
        <ol className="rows">
          {steps.map(({ what, why, href, isDone }) => (
            <li key={href}>
              <Link href={href} className="row">
                <span>
                  <strong className={isDone ? 'struck' : ''}>{what}</strong>
                  <span className="soft">{isDone ? words.done : why}</span>
                </span>
                <span aria-hidden="true" className={href === next ? 'step-on is-next' : 'step-on'}>
                  {isDone ? '✓' : '→'}
                </span>
              </Link>
            </li>
          ))}
        </ol>
        <Text className="soft" mt="sm">
          {words.then}
        </Text>
        <Button
          mt="xs"
          variant="subtle"
          onClick={() => remember(`first-steps-${clubId}`, 'enough')}
        >
          {words.enough}
        </Button>
      </Sheet>
    </div>
  );
}
