import { text } from '../../text';
import type { SettingGroup } from './setting-queries';
import { decimals } from '../../ui/numbers';

const words = text.settingTimes;

export function GroupTable({ groups }: { groups: SettingGroup[] }) {
  return (
    <div className="scroll-x" tabIndex={0} role="region" aria-label={words.table}>
      <table className="plain">
        <thead>
          <tr>
            <th scope="col">{words.group}</th>
            <th scope="col" className="numbers">
              {words.batches}
            </th>
            <th scope="col" className="numbers">
              {words.seen}
            </th>
            <th scope="col" className="numbers">
              {words.half}
            </th>
            <th scope="col" className="numbers">
              {words.eighty}
            </th>
            <th scope="col" className="numbers">
              {words.pooled}
            </th>
          </tr>
        </thead>
        <tbody>
          {groups.map((group) => (
            <tr key={group.id ?? group.name}>
              <th scope="row">{group.name}</th>
              <td className="numbers">{group.batchCount}</td>
              <td className="numbers">{group.setCount}</td>
              {group.tooFew === null ? (
                <>
                  <td className="numbers">
                    <Day quantile={group.median} />
                  </td>
                  <td className="numbers">
                    <Day quantile={group.percentile80} />
                  </td>
                </>
              ) : (
                <td colSpan={2} className="soft">
                  {group.tooFew}
                </td>
              )}
              <td className="numbers">
                {group.pooled !== null && (
                  <>
                    {days(group.pooled.medianDays)}
                    <Limits lower={group.pooled.lowerDays} upper={group.pooled.upperDays} />
                  </>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Day({ quantile }: { quantile: SettingGroup['median'] }) {
  if (quantile === null) return <>…</>;
  return (
    <>
      {days(quantile.quotedDays)}
      <Limits lower={quantile.lowerDays} upper={quantile.upperDays} />
    </>
  );
}

function Limits({ lower, upper }: { lower: number | null; upper: number | null }) {
  return (
    <>
      <br />
      <span className="soft">{words.limits(days(lower), days(upper))}</span>
    </>
  );
}

function days(value: number | null): string {
  return value === null ? '…' : decimals(value, 1);
}
