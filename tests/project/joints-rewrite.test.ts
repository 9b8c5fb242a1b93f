/** Joints of older sheets: their formulas written again for own rivets, their missing columns added. */
import { describe, expect, it } from 'vitest';
import { jointsRewrite, type JointsRewrite } from '../../src/project';
import type { Cell } from '../../src/sheet';

const LABELS = [
  'Joint',
  'Component',
  'Sheet 1 (in)',
  'Sheet 2 (in)',
  'Sheet 3 (in)',
  'Style',
  'Diameter (in)',
  'Run (in)',
  'Pitch (in)',
  'Edge (in)',
  'Rows',
  'Repeats',
  'Arm (in)',
  'Grip (in)',
  'Rivet',
  'Rivets',
  'Weight (lb)',
  'Moment (lb·in)',
  'Cost',
  'Check',
  'Hours',
];
const typed: Cell[] = ['Seam', 'Wing', 0.032, 0.04, null, 'blind', 0.125, 20, 1, 0.3, 1, 1, 60];
const none = LABELS.map((): string | null => null);
/** Formulas of version 0.1 in row `row`, from 1. */
const old = (row: number): (string | null)[] => [
  ...none.slice(0, 13),
  `=IF(LEN(C${row})=0,"",C${row}+D${row}+E${row})`,
  `=IF(OR(LEN(F${row})=0,LEN(G${row})=0,LEN(N${row})=0),"",TARE.RIVET.PICK(F${row},G${row},N${row}))`,
  `=IF(OR(LEN(H${row})=0,LEN(I${row})=0),"",TARE.RIVET.COUNT(H${row},I${row},J${row},IF(LEN(K${row})=0,1,K${row}))*IF(LEN(L${row})=0,1,L${row}))`,
  `=IF(OR(LEN(O${row})=0,LEN(P${row})=0),"",TARE.RIVET.WEIGHT(O${row},P${row}))`,
  `=IF(OR(LEN(Q${row})=0,LEN(M${row})=0),"",Q${row}*M${row})`,
  `=IF(OR(LEN(O${row})=0,LEN(P${row})=0),"",TARE.PRICE.COST(O${row},P${row},Prices[#All]))`,
  `=IF(OR(LEN(O${row})=0,LEN(I${row})=0,LEN(J${row})=0),"",TARE.RIVET.CHECK(O${row},N${row},MAX(C${row}:E${row}),I${row},J${row}))`,
  `=IF(LEN(P${row})=0,"",TARE.RIVET.HOURS(P${row},IF(F${row}="blind",0.75,1.5)))`,
];
const rewrite = (cells: Cell[][], formulas: (string | null)[][], own = 'Rivets[#All]') =>
  jointsRewrite({ cells, formulas, own, system: 'in-lb' });
const at = ({ edits }: JointsRewrite, row: number, column: number): unknown =>
  edits.flatMap((edit) =>
    edit.kind === 'write' && edit.range.row === row && edit.range.column === column ? [edit.cells[0]![0]] : [],
  )[0];

describe('joints of an older sheet', () => {
  it('are written again with the table of own rivets, and the columns that have come since are added', () => {
    const found = rewrite([LABELS, typed], [none, old(2)])!;
    expect(found.added).toEqual([
      'Flange edge (in)',
      'Staggered',
      'Head is',
      'Sheets',
      'Sheet material',
      'One rivet carries',
    ]);
    expect(found.left).toEqual([]);
    expect(at(found, 1, 14)).toEqual({
      formula: '=IF(OR(LEN(F2)=0,LEN(G2)=0,LEN(N2)=0),"",TARE.RIVET.PICK(F2,G2,N2,,,,Rivets[#All]))',
    });
    expect(at(found, 1, 16)).toEqual({
      formula: '=IF(OR(LEN(O2)=0,LEN(P2)=0),"",TARE.RIVET.WEIGHT(O2,P2,,,Rivets[#All]))',
    });
    expect(at(found, 1, 18)).toMatchObject({ formula: expect.stringContaining('Prices[#All],,Rivets[#All])') });
    expect(at(found, 1, 19)).toMatchObject({ formula: expect.stringMatching(/MIN\(J2,V2\).*,Rivets\[#All\]\)\)\)$/) });
    // The moment needs nothing new.
    expect(at(found, 1, 17)).toBeUndefined();
    expect(at(found, 0, 21)).toBe('Flange edge (in)');
  });

  it('are left as they are where a person wrote them otherwise, by their cells', () => {
    const own = old(2);
    own[14] = '=TARE.RIVET.PICK(F2,G2,N2,"longer")';
    own[15] = '=TARE.RIVET.COUNT(H2,I2,J2)+4*Extra';
    own[20] = '=TARE.RIVET.HOURS(P2,2)';
    const found = rewrite([LABELS, typed], [none, own])!;
    expect(found.left).toEqual(['O2', 'P2', 'U2']);
    expect(at(found, 1, 14)).toBeUndefined();
    expect(at(found, 1, 16)).toBeDefined();
  });

  it('that spill are written one a row, down to where they spill', () => {
    const spilled = [...none];
    spilled[14] = '=TARE.RIVET.PICK(F2:F6,G2:G6,N2:N6)';
    const found = rewrite([LABELS, typed, typed], [none, spilled, none])!;
    expect(at(found, 1, 14)).toMatchObject({ formula: expect.stringContaining('TARE.RIVET.PICK(F2,G2,N2,') });
    expect(at(found, 5, 14)).toMatchObject({ formula: expect.stringContaining('TARE.RIVET.PICK(F6,G6,N6,') });
    expect(at(found, 6, 14)).toBeUndefined();
  });

  it('keep their own order of columns and their units', () => {
    const labels = ['Rivets', 'Rivet', 'Style', 'Joint', 'Component', 'Diameter (mm)', 'Grip (mm)'];
    const cells: Cell[][] = [['Our joints'], labels, [100, null, 'blind', 'Seam', 'Wing', 3.2, 2]];
    const formulas = [[], [], [null, '=TARE.RIVET.PICK(C3,F3,G3,,,"mm-kg")']];
    const found = jointsRewrite({ cells, formulas, own: 'Rivets!$A$1:$Q$60', system: 'in-lb' })!;
    expect(at(found, 2, 1)).toEqual({
      formula: '=IF(OR(LEN(C3)=0,LEN(F3)=0,LEN(G3)=0),"",TARE.RIVET.PICK(C3,F3,G3,,,"mm-kg",Rivets!$A$1:$Q$60))',
    });
    expect(found.added).toContain('Flange edge (mm)');
    // A number that was typed is nobody's formula.
    expect(at(found, 2, 0)).toBeUndefined();
  });

  it('are asked for nothing when all is done', () => {
    const first = rewrite([LABELS, typed], [none, old(2)])!;
    const wide = [...LABELS, ...first.added];
    const cells: Cell[][] = [wide, typed];
    const formulas: (string | null)[][] = [wide.map(() => null), wide.map(() => null)];
    for (const edit of first.edits)
      if (edit.kind === 'write' && edit.range.row === 1) {
        const cell = edit.cells[0]![0];
        if (typeof cell === 'object' && cell !== null && 'formula' in cell)
          formulas[1]![edit.range.column] = cell.formula;
      }
    expect(rewrite(cells, formulas)).toBeUndefined();
  });
});
