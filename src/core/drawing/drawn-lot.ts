import type { LotKind } from '../lineage/seed-line';

/** A lot as it is drawn. */
export type DrawnLot = {
  readonly id: string;
  /** Without dashes. */
  readonly code: string;
  readonly kind: LotKind;
  readonly name: string;
  readonly holderId: string;
  readonly holderName: string;
  readonly initialMassG: number;
  /** To the lot asked about: it is in it, it is itself, or it holds some of it. */
  readonly relation: 'ancestor' | 'asked' | 'descendant';
  /** Of the ancestor in the descendant, over all paths, from 0 to 1; 1 for the lot asked about. */
  readonly share: number;
  /** The fewest steps to the lot asked about; 0 for itself. */
  readonly nearest: number;
  /** The most steps to the lot asked about; 0 for itself. */
  readonly farthest: number;
};

/** So much of one lot went into another. */
export type DrawnEdge = {
  readonly parentId: string;
  readonly childId: string;
  readonly massG: number;
  /** Of all that went into the child, from 0 to 1. */
  readonly part: number;
};
