import { text } from '../../text';

const words = text.room;

interface Mark {
  words: string;
  fill: string;
  opacity: number;
  dash: string;
  /** A bar's; blocks are as high as they are drawn. */
  height?: number;
}

export function Legend() {
  const marks: Mark[] = [
    { words: words.duties.warm, fill: 'var(--warm)', opacity: 0.95, dash: '' },
    { words: words.duties.bench, fill: 'var(--bench)', opacity: 0.95, dash: '' },
    { words: words.duties.cool, fill: 'var(--cool)', opacity: 0.95, dash: '' },
    { words: words.others, fill: 'var(--cool)', opacity: 0.4, dash: '' },
    { words: words.kept, fill: 'var(--cool)', opacity: 0.4, dash: '4 3' },
    { words: words.shut, fill: 'var(--ink-soft)', opacity: 0.1, dash: '' },
    { words: words.closure, fill: 'var(--ink-soft)', opacity: 0.35, dash: '' },
    { words: words.onlyOneDuty, fill: 'var(--cool)', opacity: 0.95, dash: '', height: 5 },
  ];
  return (
    <ul className="legend" aria-label={words.legend}>
      {marks.map((mark) => (
        <li key={mark.words}>
          <svg width="24" height="16" aria-hidden="true">
            <rect
              x="1"
              y={(16 - (mark.height ?? 14)) / 2}
              width="22"
              height={mark.height ?? 14}
              rx={mark.height === undefined ? 3 : 0}
              fill={mark.fill}
              fillOpacity={mark.opacity}
              stroke={mark.fill}
              strokeDasharray={mark.dash}
            />
          </svg>
          {mark.words}
        </li>
      ))}
    </ul>
  );
}
