import { NativeSelect } from '@mantine/core';
import { text } from '../../text';
import { useStations } from '../club/club-queries';
import { useRunningBatches } from './probe-queries';

/** Where a probe is: `station:id`, `batch:id`, or empty for nowhere. */
export type Spot = string;

/** The same as the API says it. */
export function spotBody(spot: Spot): { stationId?: string; batchId?: string } {
  const [kind, id] = spot.split(':');
  if (id === undefined) return {};
  return kind === 'batch' ? { batchId: id } : { stationId: id };
}

export function SpotChoice({
  value,
  onChange,
  mayBeNowhere = false,
}: {
  value: Spot;
  onChange: (value: Spot) => void;
  mayBeNowhere?: boolean;
}) {
  const { data: stations = [] } = useStations();
  const { data: batches = [] } = useRunningBatches();
  return (
    <NativeSelect
      label={text.probes.where}
      required={!mayBeNowhere}
      value={value}
      onChange={(event) => onChange(event.currentTarget.value)}
    >
      <option value="">{mayBeNowhere ? text.probes.nowhere : ''}</option>
      <optgroup label={text.probes.batches}>
        {batches.map(({ id, name }) => (
          <option key={id} value={`batch:${id}`}>
            {name}
          </option>
        ))}
      </optgroup>
      <optgroup label={text.probes.stations}>
        {stations.map(({ id, name }) => (
          <option key={id} value={`station:${id}`}>
            {name}
          </option>
        ))}
      </optgroup>
    </NativeSelect>
  );
}
