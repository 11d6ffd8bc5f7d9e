import type { ChosenLots } from '../core/drawing/choose-lots';
import { drawChosen } from '../core/drawing/draw-lineage';

// Runs in a thread of its own. It loads nothing but the drawing: no framework, no database.

export interface DrawingTask {
  chosen: ChosenLots;
  /** Of the club's lots; an id follows. */
  lotsPath: string;
}

export function draw({ chosen, lotsPath }: DrawingTask): string {
  return drawChosen(chosen, ({ id }) => `${lotsPath}/${id}`);
}
