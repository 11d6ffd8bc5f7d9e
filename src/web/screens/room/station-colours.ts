/** By what a station does at a time. */
export const colours = { warm: 'var(--warm)', cool: 'var(--cool)', bench: 'var(--bench)' };
