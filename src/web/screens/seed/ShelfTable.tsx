import { useState } from 'react';
import { text } from '../../text';
import { writtenMark } from '../lots/written-mark';
import { Composition, OnHoldMark, SeedName, Stands, Texture } from './SeedFacts';
import type { ShelfSeed } from './seed-queries';
import { ShelfButton, ShelfForm } from './ShelfAction';
import { Free } from './ShelfCards';
import type { ShelfKey, ShelfOrder } from './shelf-order';

const words = text.seed;

type Column = keyof typeof words.columns;

const sortable: Partial<Record<Column, ShelfKey>> = {
  name: 'name',
  holder: 'holder',
  free: 'free',
  grain: 'grain',
  generation: 'generation',
  texture: 'texture',
  age: 'age',
};
/** Of these the most comes first. */
const downwards: ShelfKey[] = ['free', 'texture'];
const numeric: Column[] = ['free', 'generation', 'age'];

/** The shelf as it is read at a desk; a heading that is pressed puts it in that order. */
export function ShelfTable({
  lots,
  order,
  onOrder,
}: {
  lots: ShelfSeed[];
  order: ShelfOrder;
  onOrder: (by: ShelfKey) => void;
}) {
  return (
    <div className="scroll-x" tabIndex={0} role="region" aria-label={words.parts.shelf}>
      <table className="plain shelf">
        <thead>
          <tr>
            {(Object.entries(words.columns) as [Column, string][]).map(([column, label]) => (
              <Heading key={column} column={column} label={label} order={order} onOrder={onOrder} />
            ))}
          </tr>
        </thead>
        <tbody>
          {lots.map((lot) => (
            <Row key={lot.lotId} lot={lot} />
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** What is done with it opens below it, as wide as the table. */
function Row({ lot }: { lot: ShelfSeed }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <>
      <tr>
        <th scope="row">
          <SeedName lot={lot} />
          <span className="soft">{writtenMark(lot.code)}</span>
          <OnHoldMark lot={lot} />
        </th>
        <td>
          {lot.holder.name}
          {!lot.onHold && !isOpen && <ShelfButton lot={lot} onOpen={() => setOpen(true)} />}
        </td>
        <td className="numbers">
          <Free lot={lot} />
        </td>
        <td>{lot.grain === null ? words.grainUnknown : text.lots.grains[lot.grain]}</td>
        <td>
          <Composition lot={lot} />
        </td>
        <td className="numbers">{lot.generation}</td>
        <td>
          <Texture lot={lot} />
        </td>
        <td className="numbers">{words.ageDays(lot.ageDays)}</td>
        <td>
          <Stands lot={lot} />
        </td>
      </tr>
      {isOpen && (
        <tr>
          <td colSpan={Object.keys(words.columns).length}>
            <ShelfForm lot={lot} onEnd={() => setOpen(false)} />
          </td>
        </tr>
      )}
    </>
  );
}

function Heading({
  column,
  label,
  order,
  onOrder,
}: {
  column: Column;
  label: string;
  order: ShelfOrder;
  onOrder: (by: ShelfKey) => void;
}) {
  const by = sortable[column];
  const className = numeric.includes(column) ? 'numbers' : undefined;
  if (by === undefined) {
    return (
      <th scope="col" className={className}>
        {label}
      </th>
    );
  }
  const isChosen = order.by === by;
  const isDown = downwards.includes(by) !== order.isTurned;
  return (
    <th
      scope="col"
      className={className}
      aria-sort={isChosen ? (isDown ? 'descending' : 'ascending') : undefined}
    >
      <button type="button" className="sorter" onClick={() => onOrder(by)}>
        {label}
        <span aria-hidden="true">{isChosen ? (isDown ? ' ▾' : ' ▴') : ''}</span>
      </button>
    </th>
  );
}
