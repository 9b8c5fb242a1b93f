import { describe, expect, it } from 'vitest';
import { evaluate, recalculate } from '../../src/calculation';
import { CellError, type Cell, type CellModel, type SheetModel, type WorkbookModel } from '../../src/sheet';
import { needsArray } from '../../src/sheet/formula';

type Given = Cell | undefined | CellModel;
const isModel = (given: Given): given is CellModel =>
  typeof given === 'object' && given !== null && !(given instanceof CellError);
const formula = (text: string, more: Partial<CellModel> = {}): CellModel => ({ value: null, formula: text, ...more });

function book(
  rows: readonly (readonly Given[])[],
  more: Partial<WorkbookModel> = {},
  sheet: Partial<SheetModel> = {},
): WorkbookModel {
  const cells = rows.map((row) =>
    row.map((given) => (given === undefined ? undefined : isModel(given) ? given : { value: given })),
  );
  return { styles: [], names: [], sheets: [{ name: 'Parts', cells, tables: [], ...sheet }], ...more };
}

const valuesOf = ({ sheets }: WorkbookModel): (Cell | undefined)[][] =>
  sheets[0]!.cells.map((line) =>
    Array.from(line, (cell) => (cell?.value instanceof CellError ? cell.value.code : cell?.value)),
  );

describe('order', () => {
  it('does not matter', () => {
    const { model } = recalculate(book([[formula('B1+1'), formula('C1+1'), formula('D1+1'), 1]]));
    expect(valuesOf(model)).toEqual([[4, 3, 2, 1]]);
  });

  it('holds down a running total of 50,000 rows, bottom first', () => {
    const rows = Array.from({ length: 50_000 }, (_row, r) => [
      1,
      r === 49_999 ? formula(`A${r + 1}`) : formula(`A${r + 1}+B${r + 2}`),
    ]);
    const { model } = recalculate(book(rows));
    expect(model.sheets[0]!.cells[0]![1]!.value).toBe(50_000);
  });

  it('holds through names, tables and other sheets', () => {
    const tables = [
      { name: 'Sizes', range: { sheet: 'Parts', row: 0, column: 0, rows: 3, columns: 2 }, columns: ['length', 'area'] },
    ];
    const rows = [
      ['length', 'area'],
      [2, formula('Sizes[@length]*Factor')],
      [3, formula('Sizes[[#This Row],[length]]*Factor')],
      [formula("SUM(Sizes[area])+'Other sheet'!A1")],
    ];
    const other: SheetModel = {
      name: 'Other sheet',
      cells: [[formula('SUM(Parts!B2:B3)'), { value: 10 }]],
      tables: [],
    };
    const start = book(rows, { names: [{ name: 'Factor', refersTo: "'Other sheet'!$B$1" }] }, { tables });
    const { model } = recalculate({ ...start, sheets: [...start.sheets, other] });
    expect(valuesOf(model)).toEqual([['length', 'area'], [2, 20], [3, 30], [100]]);
  });

  it('takes a name of the sheet before one of the workbook', () => {
    const names = [
      { name: 'Waste', refersTo: '10' },
      { name: 'Waste', refersTo: '20', scope: 'Parts' },
    ];
    expect(valuesOf(recalculate(book([[formula('Waste+1')]], { names })).model)).toEqual([[21]]);
  });
});

describe('circles', () => {
  it('are named and keep their values; what depends on them goes on', () => {
    const rows = [[formula('B1+1', { value: 5 }), formula('A1+1', { value: 6 }), formula('A1*2'), formula('1+1')]];
    const { model, kept } = recalculate(book(rows));
    expect(valuesOf(model)).toEqual([[5, 6, 10, 2]]);
    expect(kept).toEqual([
      {
        reason: 'These formulas go round in a circle',
        cells: [
          { sheet: 'Parts', row: 0, column: 0 },
          { sheet: 'Parts', row: 0, column: 1 },
        ],
      },
    ]);
  });

  it('are none where a formula only asks where it is', () => {
    expect(valuesOf(recalculate(book([[formula('ROW(A1)+COLUMNS(A1:B1)')]])).model)).toEqual([[3]]);
  });
});

describe('spills', () => {
  it('fill, shrink and grow', () => {
    const spill = { rows: 3, columns: 1 };
    const rows = [
      [2, formula('SEQUENCE(A1)', { value: 1, spill }), formula('SUM(B1:B9)')],
      [undefined, { value: 2, spilled: true }],
      [undefined, { value: 3, spilled: true, style: 1 }],
    ];
    const shrunk = recalculate(book(rows, { styles: [{}, { bold: true }] })).model;
    expect(valuesOf(shrunk)).toEqual([
      [2, 1, 3],
      [undefined, 2],
      [undefined, null],
    ]);
    expect(shrunk.sheets[0]!.cells[0]![1]!.spill).toEqual({ rows: 2, columns: 1 });
    expect(shrunk.sheets[0]!.cells[2]![1]).toEqual({ value: null, style: 1 });
    const grown = recalculate({
      ...shrunk,
      sheets: [
        {
          ...shrunk.sheets[0]!,
          cells: [[{ value: 4 }, ...shrunk.sheets[0]!.cells[0]!.slice(1)], ...shrunk.sheets[0]!.cells.slice(1)],
        },
      ],
    }).model;
    expect(valuesOf(grown)).toEqual([
      [4, 1, 10],
      [undefined, 2],
      [undefined, 3],
      [undefined, 4],
    ]);
  });

  it('reach formulas that look at them, whatever their extent was', () => {
    const { model } = recalculate(book([[formula('A3*10'), 3], [formula('SEQUENCE(B1)')]]));
    expect(valuesOf(model)).toEqual([[20, 3], [1], [2], [3]]);
  });

  it('do not run over what is there', () => {
    const { model, problems } = recalculate(book([[formula('SEQUENCE(3)')], [undefined], ['mine']]));
    expect(valuesOf(model)).toEqual([['#SPILL!'], [undefined], ['mine']]);
    expect(problems[0]!.error.message).toContain('3 × 1 cells');
  });

  it('of the older kind keep the extent that they were given', () => {
    const fixed = (rows: number): CellModel => formula('{1;2}', { spill: { rows, columns: 1, fixed: true } });
    expect(valuesOf(recalculate(book([[fixed(3)]])).model)).toEqual([[1], [2], ['#N/A']]);
    expect(valuesOf(recalculate(book([[fixed(1)], ['mine']])).model)).toEqual([[1], ['mine']]);
  });

  it('of TARE functions carry messages by cell', () => {
    const { problems } = recalculate(book([[3, formula('TARE.AREA.RECT(A1:A3,2)')], [-4], [5]]));
    expect(problems).toMatchObject([
      {
        row: 1,
        column: 1,
        formula: 'TARE.AREA.RECT(A1:A3,2)',
        error: { code: '#VALUE!', message: expect.stringContaining('length: got -4') as string },
      },
    ]);
  });
});

describe('plain formulas of files', () => {
  it('take one cell of a range, as typed ones do not', () => {
    const rows = (plain: boolean): Given[][] => [[1, formula('A1:A2*2', plain ? { plain } : {})], [2]];
    expect(valuesOf(recalculate(book(rows(true))).model)).toEqual([[1, 2], [2]]);
    expect(valuesOf(recalculate(book(rows(false))).model)).toEqual([
      [1, 2],
      [2, 4],
    ]);
  });

  it('with a TARE function are given the form that binds it', () => {
    const { model, bound } = recalculate(book([[3, formula('TARE.AREA.RECT(A1,2)', { plain: true })]]));
    expect(bound).toBe(1);
    expect(model.sheets[0]!.cells[0]![1]).toEqual({
      value: 6,
      formula: 'TARE.AREA.RECT(A1,2)',
      spill: { rows: 1, columns: 1 },
    });
  });

  it.each([
    ['A1:A3*2', true],
    ['ROUND(A1:A3,1)', true],
    ['SUM(A1:A3*B1:B3)', true],
    ['-Sizes[length]', true],
    ['Widths/2', true],
    ['SUM(A1:A3)*2', false],
    ['SUMPRODUCT(A1:A3*B1:B3)', false],
    ['[@length]*2', false],
    ['IF(A1>1,SUM(B:B),"a:b")', false],
    ['Single*2', false],
  ])('%s needs the form of an array: %s', (text, needs) => {
    expect(needsArray(text, (name) => name === 'Widths')).toBe(needs);
  });
});

describe('what cannot be calculated', () => {
  it('keeps its value and is named', () => {
    const rows = [
      [
        formula('FOREIGN.THING(1)', { value: 7 }),
        formula('[1]Prices!A1+1', { value: 8 }),
        formula("'C:\\old\\[book.xlsx]Parts'!A1", { value: 9 }),
        formula('A1+B1+C1'),
      ],
    ];
    const { model, kept } = recalculate(book(rows));
    expect(valuesOf(model)).toEqual([[7, 8, 9, 24]]);
    expect(kept.map(({ reason, cells }) => [reason, cells.map(({ column }) => column)])).toEqual([
      ['FOREIGN.THING is not known here', [0]],
      ['Another workbook is not read here', [1, 2]],
    ]);
  });

  it('keeps its spill', () => {
    const rows = [
      [formula('FOREIGN()', { value: 1, spill: { rows: 2, columns: 1 } }), formula('SUM(A1:A2)')],
      [{ value: 2, spilled: true }],
    ];
    const { model } = recalculate(book(rows));
    expect(valuesOf(model)).toEqual([[1, 3], [2]]);
    expect(model.sheets[0]!.cells[0]![0]!.formula).toBe('FOREIGN()');
  });
});

describe('hidden rows', () => {
  const rows = [[1], [2], [4], [formula('SUBTOTAL(9,A1:A3)'), formula('SUBTOTAL(109,A1:A3)'), formula('SUM(A1:A3)')]];

  it('count in a subtotal unless a filter hides them', () => {
    expect(valuesOf(recalculate(book(rows, {}, { hiddenRows: [1] })).model)[3]).toEqual([7, 5, 7]);
    expect(valuesOf(recalculate(book(rows, {}, { hiddenRows: [1], filtered: true })).model)[3]).toEqual([5, 5, 7]);
  });
});

describe('one formula', () => {
  it.each<[string, Cell]>([
    ['=1+1', 2],
    [' =TARE.AREA.RECT(12,4) ', 48],
    ['tare.area.rect(12,4)', 48],
    ['="a"&"b"', 'ab'],
  ])('%s', (text, gives) => expect(evaluate(text)).toEqual(gives));

  it.each([
    ['=FOREIGN(1)', '#NAME?', /no function FOREIGN/],
    ['=Nowhere', '#NAME?', /no name or function "Nowhere"/],
    ['=1+', '#NAME?', /Something is missing after "\+"/],
    ['=(1', '#NAME?', /add \) at the end/],
    ['={1,2;3}', '#NAME?', /rows between \{ and \} differ/],
    ['=ROUND(1)', '#VALUE!', /takes 2/],
    [`=${'('.repeat(300)}1${')'.repeat(300)}`, '#NAME?', /more than 200 brackets/],
    ['=TARE.AREA.RECT(-1,4)', '#VALUE!', /length: got -1/],
  ])('%s is an error with a message', (text, code, message) => {
    const result = evaluate(text);
    expect(result).toMatchObject({ code });
    expect((result as CellError).message).toMatch(message);
  });

  it('sees the cells of a workbook', () => {
    expect(evaluate('=SUM(Parts!A1:A2)', book([[1], [formula('A1*2')]]))).toBe(3);
  });
});
