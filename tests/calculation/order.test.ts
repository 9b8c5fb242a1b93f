/** What a formula reads is calculated before it, wherever it stands and however it comes to the cells. */
import { describe, expect, it } from 'vitest';
import { Calculator, recalculate } from '../../src/calculation';
import { strictness } from '../../src/calculation/observing';
import { CellError, parseCell, type Cell, type CellModel, type WorkbookModel } from '../../src/sheet';

type Content = Cell | { readonly formula: string };

function book(cells: Readonly<Record<string, Content>>, more: Partial<WorkbookModel> = {}): WorkbookModel {
  const sheets = new Map<string, (CellModel | undefined)[][]>([['Parts', []]]);
  for (const [address, content] of Object.entries(cells)) {
    const [name, sheet = 'Parts'] = address.split('!').reverse();
    const { row, column } = parseCell(name!)!;
    const lines = sheets.get(sheet) ?? [];
    sheets.set(sheet, lines);
    (lines[row] ??= [])[column] =
      typeof content === 'object' && content !== null && 'formula' in content
        ? { value: null, formula: content.formula }
        : { value: content };
  }
  return {
    styles: [],
    names: [],
    sheets: [...sheets].map(([name, lines]) => ({ name, cells: lines, tables: [] })),
    ...more,
  };
}

const f = (formula: string): { formula: string } => ({ formula });

function valueOf(model: WorkbookModel, address: string): unknown {
  const { row, column } = parseCell(address)!;
  const value = model.sheets[0]!.cells[row]?.[column]?.value ?? null;
  return value instanceof CellError ? value.code : value;
}

/** B11:B20, C11:C20 and E11:E20 are formulas that stand below those that look at them. */
const BELOW: Record<string, Content> = Object.fromEntries(
  Array.from({ length: 10 }, (_row, r): [string, Content][] => [
    [`A${r + 11}`, r + 1],
    [`B${r + 11}`, f(`A${r + 11}*1`)],
    [`C${r + 11}`, f(`A${r + 11}*2+A${r + 11}-2*A${r + 11}+0*B${r + 11}`)],
    [`E${r + 11}`, f(`MOD(A${r + 11},3)`)],
  ]).flat(),
);

describe('a formula above what it looks at', () => {
  // The values follow from the rows: B and C hold 1 to 10, E 1, 2, 0, 1, …
  it.each<[string, Cell]>([
    ['ROWS(UNIQUE(E11:E20))', 3],
    ['ROW(INDEX(B11:B20,B14))', 14],
    ['COLUMN(INDEX(A11:C20,B14,B12))', 2],
    ['SUMIF(B11:B20,">0",C11)', 55],
    ['AVERAGEIF(B11:B20,">5",C11)', 8],
    ['SUM(INDEX(B11:B20,B12):INDEX(B11:B20,B14))', 9],
    ['SUM(B11:INDEX(B11:B20,B14))', 10],
    ['SUM(OFFSET(A11,B11,1,B13,1))', 9],
    ['ROWS(OFFSET(A11,0,0,B13,1))', 3],
    ['SUM(INDIRECT("B"&(10+B14)&":B20"))', 49],
    ['INDIRECT("Factor")', 10],
    ['ROWS(A:A)', 1048576],
    ['COLUMNS(INDEX(B11:C20,B13,0))', 2],
    ['IF(B11=1,SUM(B12:INDEX(C11:C20,B13)),0)', 10],
    ['SUM(CHOOSE(B12,A11:A12,B11:B13))', 6],
    ['SUM(XLOOKUP(B13,B11:B20,C11:C20):C20)', 52],
    ['SUMPRODUCT(A:A*(B:B>8))', 19],
    ['SUM(B:B)', 55],
    ['SUMPRODUCT((Other!A:A>0)*B:B)', 6],
    ['Factor*2', 20],
    ['SUM(Parts:Other!A12)', 4],
    ["MAX('Other:Parts'!A11:B12,3)", 3],
    ['SUM(Parts:Nowhere!A12)', '#REF!'],
  ])('%s', (formula, gives) => {
    const names = [{ name: 'Factor', refersTo: 'Parts!$B$20' }];
    const other = { 'Other!A11': f('A12-1'), 'Other!A12': f('Parts!B12'), 'Other!A13': 3 };
    const { model, kept } = recalculate(book({ D1: f(formula), ...BELOW, ...other }, { names }));
    expect(kept).toEqual([]);
    expect(valueOf(model, 'D1')).toBe(gives);
  });

  it('asks for its own place without going round in a circle', () => {
    const { model, kept } = recalculate(book({ A1: f('ROW(A1)+COLUMNS($A1:A1)'), A2: f('ROWS(A$1:A2)') }));
    expect([kept, valueOf(model, 'A1'), valueOf(model, 'A2')]).toEqual([[], 2, 2]);
  });

  it('goes round in a circle by what it reads, not by what it does not', () => {
    const cells = { A1: 1, B1: f('IF(A1=1,5,C1)'), C1: f('B1+1'), D1: f('IF(A1=1,E1,0)'), E1: f('D1+1') };
    const { model, kept } = recalculate(book(cells));
    expect([valueOf(model, 'B1'), valueOf(model, 'C1')]).toEqual([5, 6]);
    expect(kept.map(({ cells: those }) => those.map(({ column }) => column))).toEqual([[3, 4]]);
  });

  it('is told of the same circles wherever the formulas stand', () => {
    const ring = (places: readonly string[]): unknown => {
      const [a, b, c, d] = places as [string, string, string, string];
      const { kept } = recalculate(book({ [a]: f(`${b}+${c}`), [b]: f(`${a}`), [c]: f(`${a}+${d}`), [d]: 4 }));
      return kept
        .flatMap(({ cells: those }) =>
          those.map(({ column }) => places.findIndex((one) => parseCell(one)!.column === column)),
        )
        .sort();
    };
    const all = [
      ['A1', 'B1', 'C1', 'D1'],
      ['C1', 'A1', 'B1', 'D1'],
      ['D1', 'C1', 'A1', 'B1'],
      ['B1', 'D1', 'C1', 'A1'],
    ];
    for (const places of all) expect(ring(places)).toEqual(ring(all[0]!));
  });
});

describe('two results that want the same cells', () => {
  it('are not laid over one another: the first in reading order has them', () => {
    for (const sizes of [
      ['SEQUENCE(3)', 'SEQUENCE(1,2)'],
      ['SEQUENCE(E9)', 'SEQUENCE(1,E8)'],
    ]) {
      const { model } = recalculate(book({ B1: f(sizes[0]!), A2: f(sizes[1]!), E9: f('E8+1'), E8: f('1+1') }));
      expect([valueOf(model, 'B3'), valueOf(model, 'B2'), valueOf(model, 'A2')]).toEqual([3, 2, '#SPILL!']);
    }
  });
});

describe('strictness', () => {
  it('is on in the tests, and finds a read that is not declared', () => {
    expect(strictness.isOn).toBe(true);
    const calculator = new Calculator(book({ A1: 1, B1: f('A1+1') }));
    const [program] = [
      ...(calculator as unknown as { programs: Map<string, { references: unknown[] }> }).programs.values(),
    ];
    program!.references.length = 0;
    expect(() => calculator.run()).toThrow('Parts!B1 (=A1+1) reads Parts!A1 and does not declare it');
  });
});
