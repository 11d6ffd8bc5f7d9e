/** So many whole grams of the lot `parentId` went into the lot `childId`. */
export type LotEdge = {
  readonly childId: string;
  readonly parentId: string;
  readonly massG: number;
};

/** The edges seen from both ends. A parent that went in twice stands there twice. */
export type LotGraph = {
  /** By child: what went into it. */
  readonly inputs: ReadonlyMap<string, readonly LotEdge[]>;
  /** By parent: what it went into. */
  readonly uses: ReadonlyMap<string, readonly LotEdge[]>;
  /** By child: all that went into it, in grams. */
  readonly inputMassG: ReadonlyMap<string, bigint>;
};

/**
 * Indexes the edges by child and by parent. Masses are whole grams from 1 to 2^53 - 1 (RangeError).
 * Cycles are found only where a trace meets them, by `orderFrom`.
 */
export function lotGraph(edges: readonly LotEdge[]): LotGraph {
  const inputs = new Map<string, LotEdge[]>();
  const uses = new Map<string, LotEdge[]>();
  for (const edge of edges) {
    if (!Number.isSafeInteger(edge.massG) || edge.massG < 1) {
      throw new RangeError(
        `massG must be a whole number of grams of at least 1, got ${edge.massG} ` +
          `from lot ${edge.parentId} into lot ${edge.childId}`,
      );
    }
    listIn(inputs, edge.childId).push(edge);
    listIn(uses, edge.parentId).push(edge);
  }
  const inputMassG = new Map([...inputs].map(([childId, list]) => [childId, massOfAll(list)]));
  return { inputs, uses, inputMassG };
}

function massOfAll(edges: readonly LotEdge[]): bigint {
  const sum = edges.reduce((total, { massG }) => total + massG, 0);
  return Number.isSafeInteger(sum)
    ? BigInt(sum)
    : edges.reduce((total, { massG }) => total + BigInt(massG), 0n);
}

/**
 * The lot and all that can be reached from it, each after everything that leads to it: whoever works
 * through this order meets a lot only once all paths to it have been summed.
 * `next` names the neighbours in the direction of the trace, repeats allowed.
 * A cycle among the lots reached throws a RangeError that names one of them.
 */
export function orderFrom(lotId: string, next: (lotId: string) => readonly string[]): string[] {
  const waitingFor = new Map<string, number>([[lotId, 0]]);
  const reached = [lotId];
  for (const id of reached) {
    for (const neighbour of next(id)) {
      const known = waitingFor.get(neighbour);
      if (known === undefined) reached.push(neighbour);
      waitingFor.set(neighbour, (known ?? 0) + 1);
    }
  }

  const order = waitingFor.get(lotId) === 0 ? [lotId] : [];
  for (const id of order) {
    for (const neighbour of next(id)) {
      const left = (waitingFor.get(neighbour) ?? 0) - 1;
      waitingFor.set(neighbour, left);
      if (left === 0) order.push(neighbour);
    }
  }

  if (order.length < reached.length) {
    const stuck = reached.find((id) => (waitingFor.get(id) ?? 0) > 0) ?? lotId;
    throw new RangeError(`edges must not form a cycle: lot ${stuck} waits for its own descent`);
  }
  return order;
}

function listIn(lists: Map<string, LotEdge[]>, key: string): LotEdge[] {
  const existing = lists.get(key);
  if (existing) return existing;
  const created: LotEdge[] = [];
  lists.set(key, created);
  return created;
}
