import { text } from '../../text';
import type { Alternative } from './plan-queries';

const words = text.plan;
const width = 330;
const barHeight = 22;
const labelHeight = 18;

const colours = { warm: 'var(--warm)', cool: 'var(--cool)', bench: 'var(--bench)' };

/** Links of a chain: each slot begins under the one before; the long cool hold is drawn short, with a break. */
export function ChainDrawing({ alternative: { slots } }: { alternative: Alternative }) {
  const start = Math.min(...slots.map(({ startsAt }) => Date.parse(startsAt)));
  const hands = slots.filter(({ step }) => step !== 'cool');
  const endOfHands = Math.max(...hands.map(({ endsAt }) => Date.parse(endsAt)));
  // A quarter of the picture is left to what lasts weeks.
  const x = (at: number) =>
    at <= endOfHands ? ((at - start) / (endOfHands - start)) * width * 0.75 : width;
  return (
    <svg
      viewBox={`0 0 ${width} ${slots.length * (barHeight + labelHeight)}`}
      className="picture"
      role="img"
      aria-label={words.chain}
    >
      {slots.map((slot, index) => {
        const left = x(Date.parse(slot.startsAt));
        const right = x(Date.parse(slot.endsAt));
        const y = index * (barHeight + labelHeight);
        const isRight = left > width * 0.6;
        return (
          <g key={slot.step}>
            <text
              x={isRight ? right : left}
              y={y + 13}
              fontSize="13"
              textAnchor={isRight ? 'end' : 'start'}
              fill="currentColor"
            >
              {words.steps[slot.step]}
            </text>
            <rect
              x={left}
              y={y + labelHeight}
              width={Math.max(6, right - left)}
              height={barHeight - 6}
              rx="5"
              fill={colours[slot.duty]}
            />
          </g>
        );
      })}
    </svg>
  );
}
