/** Sheet parts of an invented half wing: 60 kinds, 400 pieces. Lengths in inches; the length is the longer side unless a bend asks otherwise. */
import type { SheetPart } from '../../src/core/stock';

type Row = readonly [name: string, length: number, width: number, quantity: number];

const ROWS: readonly Row[] = [
  ['Skin, root upper', 60, 40.5, 1], ['Skin, root lower', 60, 38.25, 1], ['Skin, mid upper', 54, 36.75, 1], ['Skin, mid lower', 54, 34.5, 1],
  ['Skin, nose root', 58, 21.5, 1], ['Skin, nose mid', 54, 20.25, 1], ['Skin, nose tip', 47.5, 19, 1], ['Skin, aileron', 44.75, 22.5, 1],
  ['Skin, flap', 50.5, 24.25, 1], ['Skin, walkway doubler', 36, 14.5, 1], ['Spar web, root', 70.5, 9.25, 2], ['Spar web, tip', 62, 8.375, 2],
  ['Rear spar, root', 66, 6.5, 2], ['Rear spar, tip', 60.25, 5.75, 2], ['Aileron spar', 44.5, 4.25, 2], ['Flap spar', 50.25, 4.5, 2],
  ['Rib 1, nose', 12.75, 9, 2], ['Rib 2, nose', 12.5, 8.75, 2], ['Rib 3, nose', 12.25, 8.5, 4], ['Rib 4, nose', 12, 8.375, 4],
  ['Rib 5, nose', 11.75, 8.125, 4], ['Rib 1, main', 26.5, 9.25, 2], ['Rib 2, main', 26, 9, 2], ['Rib 3, main', 25.5, 8.75, 4],
  ['Rib 4, main', 25, 8.5, 4], ['Rib 5, main', 24.5, 8.375, 4], ['Rib, aileron', 9.5, 4.25, 7], ['Rib, flap', 10.75, 4.5, 8],
  ['Rib, tip', 22.5, 7.25, 1], ['Tip bow half', 30.5, 5.5, 2], ['Tank end', 18.25, 9.5, 2], ['Tank baffle', 17.75, 9, 3],
  ['Tank wrap', 42, 30.25, 1], ['Stringer, upper', 48, 2.125, 8], ['Stringer, lower', 48, 2.125, 6], ['Stiffener, web', 8.5, 1.75, 24],
  ['Stiffener, skin', 20.5, 1.875, 12], ['Angle, rib to spar', 7.5, 1.625, 36], ['Angle, short', 3.5, 1.625, 30], ['Doubler, spar root', 24, 7.5, 4],
  ['Doubler, spar mid', 14.5, 7, 4], ['Doubler, strut', 9.75, 6.25, 4], ['Splice, skin', 38.5, 2.5, 6], ['Splice, spar cap', 12.25, 2.25, 8],
  ['Hinge bracket, aileron', 6.75, 4.75, 6], ['Hinge bracket, flap', 8.25, 5.25, 6], ['Bellcrank bracket', 7.25, 5, 4], ['Gusset, small', 3.25, 2.75, 30],
  ['Gusset, large', 5.5, 4.125, 18], ['Clip, stringer', 2.375, 1.75, 44], ['Cover, inspection', 6.5, 6.5, 10], ['Ring, inspection', 8, 8, 10],
  ['Fairing, strut', 15.75, 8.25, 2], ['Fairing, gap', 62.5, 3.25, 2], ['Cap strip, rib', 25.25, 1.375, 20], ['Lightening ring', 5.25, 5.25, 10],
  ['Nose stiffener', 18.5, 2.625, 10], ['Trailing strip', 46.25, 1.5, 4], ['Pitot bracket', 4.75, 3.5, 2], ['Tie-down bracket', 6, 3.875, 2],
];

/** @param lie how all of them may lie */
export const wingParts = (lie: SheetPart['lie'] = 'along'): SheetPart[] => ROWS.map(([name, length, width, quantity]) => ({ name, length, width, quantity, lie: lie ?? 'along' }));
