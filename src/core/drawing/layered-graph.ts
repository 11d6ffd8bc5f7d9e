import * as dagre from '@dagrejs/dagre';

/** A place of the drawing, in pixels. */
export type Point = { readonly x: number; readonly y: number };
export type Size = { readonly width: number; readonly height: number };

/** A directed graph that `layInLayers` gives places to. */
export interface LayeredGraph {
  setGraph(gaps: {
    rankdir: 'LR';
    ranker: 'tight-tree';
    nodesep: number;
    edgesep: number;
    ranksep: number;
  }): void;
  setNode(id: string, size: Size): void;
  setEdge(from: string, to: string, label: Size & { labelpos?: 'c'; weight: number }): void;
  /** The middle of a node, after it was given its place. */
  node(id: string): Point;
  /** Where an edge leaves, bends and arrives, and the middle of its words. */
  edge(from: string, to: string): Point & { readonly points: readonly Point[] };
}

// The package's own types are lost on a CommonJS reader: they name their files without the ending that ES modules ask for.
const library = dagre as unknown as {
  Graph: new () => LayeredGraph;
  layout: (graph: LayeredGraph) => void;
};

/** A graph without nodes, to be filled and laid out. */
export function layeredGraph(): LayeredGraph {
  return new library.Graph();
}

/**
 * Places nodes in layers from left to right so that edges are short and cross little. Layers by `@dagrejs/dagre`, after E. R. Gansner et
 * al., A Technique for Drawing Directed Graphs (1993); the same graph is laid the same.
 */
export function layInLayers(graph: LayeredGraph): void {
  // It changes labels it is given, also shared ones.
  library.layout(graph);
}
