import { Button, Checkbox, Group, Stack } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Sheet } from '../../ui/Sheet';
import { TemperatureField } from '../../ui/TemperatureField';
import { useUnitWords } from '../../ui/units';
import type { Duty } from '../club/club-queries';
import { StationFields, wishOf, type StationValues } from './StationFields';

const words = text.club;

interface Band {
  minC: number;
  maxC: number;
}

/** What each duty usually asks for (common practice, no source). */
const usual: Record<Duty, Band> = {
  warm: { minC: 30, maxC: 50 },
  bench: { minC: 15, maxC: 30 },
  cool: { minC: 8, maxC: 16 },
};

const fresh: StationValues = { name: '', places: 4, placeLoadKg: 30, changeoverMinutes: 120 };

/** Sets up a station with the duties that it serves. */
export function NewStation() {
  const { clubId } = useClub();
  const { temperatureUnit } = useUnitWords();
  const [values, setValues] = useState(fresh);
  const [duties, setDuties] = useState<Record<Duty, Band | undefined>>({
    warm: usual.warm,
    bench: undefined,
    cool: undefined,
  });
  const setUp = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/stations', {
          params: { path: { clubId } },
          body: {
            ...wishOf(values),
            duties: (Object.entries(duties) as [Duty, Band | undefined][]).flatMap(
              ([duty, band]) => (band === undefined ? [] : [{ duty, ...band }]),
            ),
          },
        }),
      ),
    onSuccess: async () => {
      setValues(fresh);
      await queries.invalidateQueries({ queryKey: ['stations'] });
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    setUp.mutate();
  };
  return (
    <Sheet title={words.station}>
      <form onSubmit={submit}>
        <Stack>
          <StationFields value={values} onChange={setValues} />
          {(Object.keys(usual) as Duty[]).map((duty) => {
            const band = duties[duty];
            return (
              <div key={duty}>
                <Checkbox
                  label={words.duties[duty]}
                  checked={band !== undefined}
                  onChange={(event) =>
                    setDuties({
                      ...duties,
                      [duty]: event.currentTarget.checked ? usual[duty] : undefined,
                    })
                  }
                />
                {band !== undefined && (
                  <Group grow>
                    <TemperatureField
                      label={words.dutyFrom(temperatureUnit)}
                      valueC={band.minC}
                      onChange={(minC) =>
                        setDuties({ ...duties, [duty]: { ...band, minC: minC ?? band.minC } })
                      }
                    />
                    <TemperatureField
                      label={words.dutyTo(temperatureUnit)}
                      valueC={band.maxC}
                      onChange={(maxC) =>
                        setDuties({ ...duties, [duty]: { ...band, maxC: maxC ?? band.maxC } })
                      }
                    />
                  </Group>
                )}
              </div>
            );
          })}
          {setUp.isError && <Failure error={setUp.error} />}
          <Button type="submit" w="fit-content" loading={setUp.isPending}>
            {words.add}
          </Button>
        </Stack>
      </form>
    </Sheet>
  );
}
