import { cardSize, type LaidOut, type NearLineage } from './walk-layout';

type WalkKey = 'ArrowLeft' | 'ArrowRight' | 'ArrowUp' | 'ArrowDown' | 'Home';

export function isWalkKey(key: string): key is WalkKey {
  return ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'Home'].includes(key);
}

/** Where a key leads from a lot: back to what went into it most, on to what it is most of, up and down among those beside it. The same lot: nowhere. */
export function stepFrom(lotId: string, key: WalkKey, lineage: NearLineage, laid: LaidOut): string {
  switch (key) {
    case 'ArrowLeft':
      return most(lineage, ({ childId }) => childId === lotId)?.parentId ?? lotId;
    case 'ArrowRight':
      return most(lineage, ({ parentId }) => parentId === lotId)?.childId ?? lotId;
    case 'ArrowUp':
      return beside(lotId, laid, -1);
    case 'ArrowDown':
      return beside(lotId, laid, 1);
    case 'Home':
      return lineage.lotId;
  }
}

type Line = NearLineage['lines'][number];

function most({ lines }: NearLineage, isThere: (line: Line) => boolean): Line | undefined {
  return lines.filter(isThere).sort((a, b) => b.part - a.part)[0];
}

/** The next in the same column; where there is none, the nearest that stands higher, or lower. */
function beside(lotId: string, { corners }: LaidOut, direction: 1 | -1): string {
  const here = corners.get(lotId);
  if (here === undefined) return lotId;
  const there = [...corners]
    .map(([id, { x, y }]) => ({ id, dx: Math.abs(x - here.x), dy: (y - here.y) * direction }))
    .filter(({ dy }) => dy > 1)
    // A column away counts as much as three lots within one.
    .sort((a, b) => a.dy + distance(a.dx) - (b.dy + distance(b.dx)));
  return there[0]?.id ?? lotId;
}

function distance(dx: number): number {
  return (dx / cardSize.width) * 3 * cardSize.height;
}
