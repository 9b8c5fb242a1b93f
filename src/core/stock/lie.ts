/**
 * How a piece may lie on the sheet: its length along the sheet's length (which is the grain), across it,
 * or either way. A module of its own: a parts list needs the words and not the planner.
 */
export type Lie = 'along' | 'across' | 'any';
export const LIES: readonly Lie[] = ['along', 'across', 'any'];
