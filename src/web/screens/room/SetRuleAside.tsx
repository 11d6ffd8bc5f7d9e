import { Checkbox } from '@mantine/core';
import { useClub } from '../../api/club';
import { text } from '../../text';

const words = text.room;

/** Rules of the room that a steward may set aside for one booking. */
export type RulesSetAside = Partial<Record<'evenIfClosed' | 'overFairShare', boolean>>;

const ruleOf: Record<string, keyof RulesSetAside> = {
  'club-closed': 'evenIfClosed',
  'fair-share': 'overFairShare',
};

/** Offered to a steward whose booking such a rule stands in the way of. */
export function SetRuleAside({
  code,
  value,
  onChange,
}: {
  code: string;
  value: RulesSetAside;
  onChange: (value: RulesSetAside) => void;
}) {
  const { role } = useClub();
  const rule = ruleOf[code];
  if (role !== 'steward' || rule === undefined) return null;
  return (
    <Checkbox
      label={words[rule]}
      checked={value[rule] ?? false}
      onChange={(event) => onChange({ ...value, [rule]: event.currentTarget.checked })}
    />
  );
}
