import { Group, NumberInput, TextInput } from '@mantine/core';
import { text } from '../../text';
import { MassField } from '../../ui/MassField';
import { useUnitWords } from '../../ui/units';

const words = text.club;

export interface StationValues {
  name: string;
  places: number | null;
  placeLoadKg: number | null;
  changeoverMinutes: number | null;
}

/** What every station has, and what of it can be changed later. */
export function StationFields({
  value,
  onChange,
}: {
  value: StationValues;
  onChange: (value: StationValues) => void;
}) {
  const { massUnit } = useUnitWords();
  return (
    <>
      <TextInput
        label={words.stationName}
        required
        value={value.name}
        onChange={(event) => onChange({ ...value, name: event.currentTarget.value })}
      />
      <Group grow align="flex-end">
        <NumberInput
          label={words.places}
          min={1}
          allowDecimal={false}
          hideControls
          value={value.places ?? ''}
          onChange={(typed) => onChange({ ...value, places: typed === '' ? null : Number(typed) })}
        />
        <MassField
          label={words.placeLoad(massUnit)}
          valueKg={value.placeLoadKg}
          onChange={(placeLoadKg) => onChange({ ...value, placeLoadKg })}
        />
      </Group>
      <NumberInput
        label={words.changeover}
        min={0}
        allowDecimal={false}
        hideControls
        value={value.changeoverMinutes ?? ''}
        onChange={(typed) =>
          onChange({ ...value, changeoverMinutes: typed === '' ? null : Number(typed) })
        }
      />
    </>
  );
}

/** As the service takes it; what is empty, it refuses by its field. */
export function wishOf({ name, places, placeLoadKg, changeoverMinutes }: StationValues) {
  return {
    name,
    places: places ?? 0,
    placeLoadKg: placeLoadKg ?? 0,
    changeoverMinutes: changeoverMinutes ?? 0,
  };
}
