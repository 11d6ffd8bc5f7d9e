import { Button, Text } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useEffect, useRef, useState, type KeyboardEvent } from 'react';
import { useLocation } from 'wouter';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { text } from '../../text';
import '../../styles/walk.css';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { KindSign, useWalkWords, WalkCard } from './WalkCard';
import {
  cardSize,
  layOut,
  wayThrough,
  type LaidOut,
  type NearLineage,
  type WalkLot,
} from './walk-layout';
import { isWalkKey, stepFrom } from './walk-steps';

const words = text.lineage;

/** How many lots are drawn, nearest first: each "more" goes on to the next. */
const counts = [16, 48, 120, 300];
const thinnest = 1.2;
const widest = 10;

/** The lot that was gone to in the drawing: there the walk goes on. */
let walkedTo: string | null = null;

/** The lots around one, to be walked along with a finger or by keys. The tables below tell the same; on paper only they are, and the drawing of its own. */
export function LineageWalk({ lotId }: { lotId: string }) {
  const { clubId } = useClub();
  const [step, setStep] = useState(0);
  const most = counts[step] ?? 300;
  const walk = useQuery({
    queryKey: ['lineage', clubId, lotId, most],
    queryFn: async () => {
      const lineage = await answer(
        api.GET('/api/v1/clubs/{clubId}/lots/{id}/lineage', {
          params: { path: { clubId, id: lotId }, query: { most } },
        }),
      );
      return { lineage, laid: await layOut(lineage) };
    },
    // While more is fetched, what is there stays; another lot's is nothing to show.
    placeholderData: (before, query) => (query?.queryKey[2] === lotId ? before : undefined),
  });
  return (
    <div className="no-print">
      <Sheet title={words.title}>
        <Loaded query={walk}>
          {({ lineage, laid }) =>
            lineage.lots.length === 1 ? (
              <Text className="soft">{words.alone}</Text>
            ) : (
              <>
                <Walk lineage={lineage} laid={laid} />
                <More
                  leftOut={lineage.leftOut}
                  isLast={step === counts.length - 1}
                  onMore={() => setStep(step + 1)}
                  isLoading={walk.isPlaceholderData}
                />
              </>
            )
          }
        </Loaded>
      </Sheet>
    </div>
  );
}

function More({
  leftOut,
  isLast,
  onMore,
  isLoading,
}: {
  leftOut: number;
  isLast: boolean;
  onMore: () => void;
  isLoading: boolean;
}) {
  if (leftOut === 0) return null;
  if (isLast) return <Text className="soft">{words.fartherYet(leftOut)}</Text>;
  return (
    <Button className="no-print" variant="default" mt="xs" loading={isLoading} onClick={onMore}>
      {words.more(leftOut)}
    </Button>
  );
}

function Walk({ lineage, laid }: { lineage: NearLineage; laid: LaidOut }) {
  const [, go] = useLocation();
  const told = useWalkWords();
  const frame = useRef<HTMLDivElement>(null);
  const cards = useRef(new Map<string, HTMLAnchorElement>());
  const [currentId, setCurrent] = useState(lineage.lotId);
  const current = lineage.lots.find(({ lotId }) => lotId === currentId) ?? lineage.lots[0];

  useEffect(() => {
    const corner = laid.corners.get(lineage.lotId);
    if (frame.current !== null && corner !== undefined) {
      const { clientWidth, clientHeight } = frame.current;
      frame.current.scrollTo(
        corner.x - (clientWidth - cardSize.width) / 2,
        corner.y - (clientHeight - cardSize.height) / 2,
      );
    }
    if (walkedTo !== lineage.lotId) return;
    walkedTo = null;
    // After the new screen's heading had the focus.
    const timer = setTimeout(() => {
      cards.current.get(lineage.lotId)?.focus({ preventScroll: true });
      frame.current?.scrollIntoView({ block: 'center' });
    });
    return () => clearTimeout(timer);
  }, [lineage, laid]);

  const onKeyDown = (event: KeyboardEvent) => {
    if (!isWalkKey(event.key) || current === undefined) return;
    event.preventDefault();
    const next = stepFrom(current.lotId, event.key, lineage, laid);
    const card = cards.current.get(next);
    card?.focus({ preventScroll: true });
    card?.scrollIntoView({ block: 'nearest', inline: 'center' });
  };
  const open = ({ lotId }: WalkLot) => {
    walkedTo = lotId;
    go(`/lots/${lotId}`);
  };
  return (
    <>
      <Text className="soft" size="sm">
        {words.how}
      </Text>
      <Signs />
      <div className="walk" ref={frame}>
        <div
          className="walk-ground"
          style={{ width: laid.width, height: laid.height }}
          role="group"
          aria-label={words.drawing(nameOf(lineage))}
          onKeyDown={onKeyDown}
        >
          <svg width={laid.width} height={laid.height} aria-hidden="true">
            {laid.lines.map(({ line, points }) => (
              <path
                key={`${line.parentId} ${line.childId}`}
                className={isOf(line, current) ? 'walk-line is-near' : 'walk-line'}
                d={wayThrough(points)}
                strokeWidth={thinnest + line.part * (widest - thinnest)}
              />
            ))}
          </svg>
          {lineage.lots.map((lot) => (
            <WalkCard
              key={lot.lotId}
              ref={(card: HTMLAnchorElement | null) => {
                if (card === null) cards.current.delete(lot.lotId);
                else cards.current.set(lot.lotId, card);
              }}
              lot={lot}
              corner={laid.corners.get(lot.lotId) ?? { x: 0, y: 0 }}
              isCurrent={lot.lotId === current?.lotId}
              onFocus={() => setCurrent(lot.lotId)}
              onOpen={() => open(lot)}
            />
          ))}
        </div>
      </div>
      {current !== undefined && (
        <p className="walk-told no-print" aria-hidden="true">
          <strong>{current.name}</strong> ·{' '}
          {[
            words.kinds[current.kind],
            words.heldBy(current.holder.name),
            told(current).share,
            told(current).left,
          ].join(' · ')}
        </p>
      )}
    </>
  );
}

function Signs() {
  return (
    <ul className="legend" aria-label={words.legend}>
      {(['honey', 'seed', 'creamed'] as const).map((kind) => (
        <li key={kind}>
          <span className={`is-${kind}`}>
            <KindSign kind={kind} />
          </span>
          {words.kinds[kind]}
        </li>
      ))}
    </ul>
  );
}

function nameOf({ lots, lotId }: NearLineage): string {
  return lots.find((lot) => lot.lotId === lotId)?.name ?? '';
}

function isOf(line: { parentId: string; childId: string }, lot: WalkLot | undefined): boolean {
  return lot !== undefined && (line.parentId === lot.lotId || line.childId === lot.lotId);
}
