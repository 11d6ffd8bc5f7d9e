import { text } from '../../text';
import { useUnitWords } from '../../ui/units';
import { cardSize, type Point, type WalkLot } from './walk-layout';
import { percentOf } from './percent-of';

const words = text.lineage;
const lettersInName = 20;

/** A link in a drawing, whatever the types of the framework take it for. */
export type Focusable = Element & HTMLOrSVGElement;

/** A lot in the drawing: a way to it, with its sign, its share, and in words whether it is on hold. */
export function WalkCard({
  lot,
  corner,
  isCurrent,
  onFocus,
  onOpen,
  ref,
}: {
  lot: WalkLot;
  corner: Point;
  isCurrent: boolean;
  onFocus: () => void;
  onOpen: () => void;
  ref: (card: Focusable | null) => void;
}) {
  const told = useWalkWords();
  const { width, height } = cardSize;
  const { share, left } = told(lot);
  const classes = ['walk-card', `is-${lot.kind}`];
  if (lot.relation === 'asked') classes.push('is-asked');
  if (lot.onHold) classes.push('is-held');
  return (
    <a
      ref={ref}
      href={`/lots/${lot.lotId}`}
      className={classes.join(' ')}
      aria-label={words.label([
        lot.name,
        share,
        left,
        words.kinds[lot.kind],
        words.heldBy(lot.holder.name),
      ])}
      aria-current={lot.relation === 'asked' ? 'page' : undefined}
      tabIndex={isCurrent ? 0 : -1}
      onFocus={onFocus}
      onClick={(event) => {
        if (event.ctrlKey || event.metaKey || event.shiftKey || event.button !== 0) return;
        event.preventDefault();
        onOpen();
      }}
    >
      <g transform={`translate(${corner.x} ${corner.y})`}>
        <rect className="walk-frame" width={width} height={height} rx="8" />
        <text className="walk-name" x="12" y="22">
          {shortened(lot.name)}
        </text>
        <KindSign kind={lot.kind} x={17} y={37} />
        <text x="29" y="41">
          {share}
        </text>
        <text x="12" y="61" className={lot.onHold ? 'walk-held' : undefined}>
          {left}
        </text>
        <rect
          className="walk-share"
          x="8"
          y={height - 7}
          width={Math.max(1, lot.share * (width - 16))}
          height="3"
          rx="1.5"
        />
      </g>
    </a>
  );
}

/** A drop, a grain, a pot: no kind is known by its colour alone. */
export function KindSign({ kind, x, y }: { kind: WalkLot['kind']; x: number; y: number }) {
  switch (kind) {
    case 'honey':
      return <circle className="walk-sign" cx={x} cy={y} r="5" />;
    case 'seed':
      return (
        <path
          className="walk-sign"
          d={`M${x} ${y - 6}L${x + 6} ${y}L${x} ${y + 6}L${x - 6} ${y}Z`}
        />
      );
    case 'creamed':
      return <rect className="walk-sign" x={x - 5} y={y - 5} width="10" height="10" />;
  }
}

/** What is said of a lot: its share, what is left of it, and whether it is on hold. */
export function useWalkWords() {
  const { mass } = useUnitWords();
  return (lot: WalkLot) => {
    const share = {
      ancestor: words.ancestor(percentOf(lot.share)),
      asked: words.isAsked,
      descendant: words.descendant(percentOf(lot.share)),
    }[lot.relation];
    const stillThere =
      lot.remainingMassKg > 0 ? words.left(mass(lot.remainingMassKg)) : words.usedUp;
    return { share, left: lot.onHold ? `⚠ ${words.onHold} · ${stillThere}` : stillThere };
  };
}

function shortened(name: string): string {
  const letters = Array.from(name);
  return letters.length > lettersInName ? `${letters.slice(0, lettersInName - 1).join('')}…` : name;
}
