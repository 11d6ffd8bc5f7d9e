import type { LotKind } from '../lineage/seed-line';

/** How one kind of lot looks: dark words on a light ground of its own, so that paper, a bright and a dark screen all show them. */
export type LotLook = { readonly ground: string; readonly edge: string; readonly words: string };

export const LOT_LOOKS: Readonly<Record<LotKind, LotLook>> = {
  honey: { ground: '#f7d894', edge: '#7a5200', words: '#2d1e02' },
  seed: { ground: '#d6e6c3', edge: '#3c5a1f', words: '#16240a' },
  creamed: { ground: '#f5efe2', edge: '#6a543a', words: '#2a2016' },
};

/** Around the lot that was asked about. */
export const ASKED_EDGE = '#8c1d4f';

/** Lines: in the middle between black and white, to be seen on either. */
export const LINE = '#96743a';

/** What is not a lot stands on a plate, too. */
export const PLATE: LotLook = { ground: '#fffaf0', edge: '#cdbb94', words: '#33270f' };
