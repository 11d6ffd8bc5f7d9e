import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { useAudit } from './club-queries';

type Rule = keyof typeof text.club.setAside;

const rules = Object.keys(text.club.setAside) as Rule[];

export function AuditPart() {
  const audit = useAudit();
  const times = useTimes();
  return (
    <Loaded query={audit}>
      {(items) =>
        items.length === 0 ? (
          <Empty>{text.club.noAudit}</Empty>
        ) : (
          <Sheet title={text.club.parts.audit}>
            <ul className="rows">
              {items.map(({ id, at, who, action, details }) => (
                <li key={id} className="row">
                  <span>
                    <strong>{text.club.deed(action)}</strong>
                    {setAsideIn(details).map((rule) => (
                      <span key={rule}>{text.club.setAside[rule]}</span>
                    ))}
                    <span className="soft">
                      {who} · {times.dayAndTime(at)}
                    </span>
                  </span>
                </li>
              ))}
            </ul>
          </Sheet>
        )
      }
    </Loaded>
  );
}

/** The rules of the room that a steward set aside, as an entry has them. */
function setAsideIn(details: Record<string, unknown>): Rule[] {
  return rules.filter((rule) => details[rule] === true);
}
