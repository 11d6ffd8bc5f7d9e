import { VisuallyHidden } from '@mantine/core';
import { text } from '../../text';
import { useUnitWords } from '../../ui/units';
import { percentOf } from './percent-of';
import { cardSize, type Point, type WalkLot } from './walk-layout';

const words = text.lineage;

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
  ref: (card: HTMLAnchorElement | null) => void;
}) {
  const { share, left } = useWalkWords()(lot);
  const classes = ['walk-card', `is-${lot.kind}`];
  if (lot.relation === 'asked') classes.push('is-asked');
  if (lot.onHold) classes.push('is-held');
  return (
    <a
      ref={ref}
      href={`/lots/${lot.lotId}`}
      className={classes.join(' ')}
      style={{ left: corner.x, top: corner.y, ...cardSize }}
      aria-current={lot.relation === 'asked' ? 'page' : undefined}
      tabIndex={isCurrent ? 0 : -1}
      onFocus={onFocus}
      onClick={(event) => {
        if (event.ctrlKey || event.metaKey || event.shiftKey || event.button !== 0) return;
        event.preventDefault();
        onOpen();
      }}
    >
      <strong className="walk-name">{lot.name}</strong>
      <span>
        <KindSign kind={lot.kind} />
        <VisuallyHidden>{words.kinds[lot.kind]}</VisuallyHidden> {share}
      </span>
      <span className={lot.onHold ? 'walk-held' : undefined}>{left}</span>
      <VisuallyHidden>{words.heldBy(lot.holder.name)}</VisuallyHidden>
      <span
        className="walk-share"
        style={{ width: Math.max(1, lot.share * (cardSize.width - 20)) }}
      />
    </a>
  );
}

/** A drop, a grain, a pot: no kind is known by its colour alone. */
export function KindSign({ kind }: { kind: WalkLot['kind'] }) {
  const shapes = {
    honey: <circle cx="7" cy="7" r="5" />,
    seed: <path d="M7 1L13 7L7 13L1 7Z" />,
    creamed: <rect x="2" y="2" width="10" height="10" />,
  };
  return (
    <svg className="walk-sign" width="14" height="14" viewBox="0 0 14 14" aria-hidden="true">
      {shapes[kind]}
    </svg>
  );
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
