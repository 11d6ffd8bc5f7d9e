import { Checkbox, Group } from '@mantine/core';
import { text } from '../../text';
import { TemperatureField } from '../../ui/TemperatureField';
import { useUnitWords } from '../../ui/units';
import type { Duty, Station } from '../club/club-queries';

const words = text.club;

export type StationDuty = Station['duties'][number];

/** What each duty usually asks for (common practice, no source). */
const usual: Record<Duty, StationDuty> = {
  warm: { duty: 'warm', minC: 30, maxC: 50 },
  bench: { duty: 'bench', minC: 15, maxC: 30 },
  cool: { duty: 'cool', minC: 8, maxC: 16 },
};

export const usualWarm = usual.warm;

/** Which duties a station serves, each with its temperatures. */
export function DutyFields({
  value,
  onChange,
}: {
  value: StationDuty[];
  onChange: (value: StationDuty[]) => void;
}) {
  const { temperatureUnit } = useUnitWords();
  return Object.values(usual).map((usualOne) => {
    const { duty } = usualOne;
    const served = value.find((one) => one.duty === duty);
    const put = (next: StationDuty) =>
      onChange(value.map((one) => (one.duty === duty ? next : one)));
    return (
      <div key={duty}>
        <Checkbox
          label={words.duties[duty]}
          checked={served !== undefined}
          onChange={(event) =>
            onChange(
              event.currentTarget.checked
                ? [...value, usualOne]
                : value.filter((one) => one.duty !== duty),
            )
          }
        />
        {served !== undefined && (
          <Group grow mt="xs" role="group" aria-label={words.duties[duty]}>
            <TemperatureField
              label={words.dutyFrom(temperatureUnit)}
              valueC={served.minC}
              onChange={(minC) => put({ ...served, minC: minC ?? served.minC })}
            />
            <TemperatureField
              label={words.dutyTo(temperatureUnit)}
              valueC={served.maxC}
              onChange={(maxC) => put({ ...served, maxC: maxC ?? served.maxC })}
            />
          </Group>
        )}
      </div>
    );
  });
}
