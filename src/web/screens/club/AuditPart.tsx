import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { useAudit } from './club-queries';

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
              {items.map(({ id, at, who, action }) => (
                <li key={id} className="row">
                  <span>
                    <strong>{text.club.deed(action)}</strong>
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
