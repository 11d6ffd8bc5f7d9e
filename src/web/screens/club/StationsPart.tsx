import { Button, Checkbox, Group, NumberInput, Stack, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { MassField } from '../../ui/MassField';
import { Sheet } from '../../ui/Sheet';
import { TemperatureField } from '../../ui/TemperatureField';
import { useUnitWords } from '../../ui/units';
import { useStations, type Duty, type Station } from './club-queries';

const words = text.club;

export function StationsPart() {
  const { role } = useClub();
  const stations = useStations();
  return (
    <>
      <Loaded query={stations}>
        {(items) =>
          items.length === 0 ? (
            <Empty>{words.noStations}</Empty>
          ) : (
            <div className="columns">
              {items.map((station) => (
                <StationSheet key={station.id} station={station} />
              ))}
            </div>
          )
        }
      </Loaded>
      {role === 'steward' && <NewStation />}
    </>
  );
}

function StationSheet({ station }: { station: Station }) {
  const { mass, temperature } = useUnitWords();
  return (
    <Sheet title={station.name}>
      <ul className="plain-list">
        {station.duties.map(({ duty, minC, maxC }) => (
          <li key={duty}>{words.band(words.duties[duty], temperature(minC), temperature(maxC))}</li>
        ))}
        <li className="soft">{words.placesOf(station.places, mass(station.placeLoadKg))}</li>
      </ul>
      <div className="place-boxes" aria-hidden="true">
        {Array.from({ length: station.places }, (_, index) => (
          <span key={index}>{index + 1}</span>
        ))}
      </div>
    </Sheet>
  );
}

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

function NewStation() {
  const { clubId } = useClub();
  const { massUnit, temperatureUnit } = useUnitWords();
  const [name, setName] = useState('');
  const [places, setPlaces] = useState<number | null>(4);
  const [placeLoadKg, setLoad] = useState<number | null>(30);
  const [changeoverMinutes, setChangeover] = useState<number | null>(120);
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
            name,
            places: places ?? 0,
            placeLoadKg: placeLoadKg ?? 0,
            changeoverMinutes: changeoverMinutes ?? 0,
            duties: (Object.entries(duties) as [Duty, Band | undefined][]).flatMap(
              ([duty, band]) => (band === undefined ? [] : [{ duty, ...band }]),
            ),
          },
        }),
      ),
    onSuccess: async () => {
      setName('');
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
          <TextInput
            label={words.stationName}
            required
            value={name}
            onChange={(event) => setName(event.currentTarget.value)}
          />
          <Group grow>
            <NumberInput
              label={words.places}
              min={1}
              allowDecimal={false}
              hideControls
              value={places ?? ''}
              onChange={(typed) => setPlaces(typed === '' ? null : Number(typed))}
            />
            <MassField label={words.placeLoad(massUnit)} valueKg={placeLoadKg} onChange={setLoad} />
          </Group>
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
          <NumberInput
            label={words.changeover}
            min={0}
            allowDecimal={false}
            hideControls
            value={changeoverMinutes ?? ''}
            onChange={(typed) => setChangeover(typed === '' ? null : Number(typed))}
          />
          {setUp.isError && <Failure error={setUp.error} />}
          <Button type="submit" w="fit-content" loading={setUp.isPending}>
            {words.add}
          </Button>
        </Stack>
      </form>
    </Sheet>
  );
}
