/**
 * What every host of the Workbook port does alike. Each host's test file calls `workbookContract` with a way
 * to make a workbook from `contractModel`.
 */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  CellError,
  WorkbookError,
  type Cell,
  type CellModel,
  type Edit,
  type RangeAddress,
  type Workbook,
  type WorkbookChange,
  type WorkbookModel,
} from '../../src/sheet';

const value = (cell: Cell): CellModel => ({ value: cell });
const row = (...cells: Cell[]): CellModel[] => cells.map(value);

/** Sheets Parts (a table, a formula, blank and error cells), Notes (hidden) and Locked (protected). */
export const contractModel: WorkbookModel = {
  styles: [{ numberFormat: '0.00' }],
  names: [{ name: 'Widths', refersTo: 'Parts!$B$2:$B$4' }],
  sheets: [
    {
      name: 'Parts',
      cells: [
        row('part', 'width', 'count'),
        [value('web'), { value: 12.5, style: 0 }, value(1)],
        [value('cap'), { value: 2, style: 0 }, value(2)],
        [value('rib'), { value: 7, style: 0 }, value(9)],
        [],
        [
          value('total'),
          { value: 21.5, formula: 'SUM(Widths)' },
          { value: new CellError('#DIV/0!'), formula: '1/0' },
          value(true),
        ],
      ],
      tables: [
        {
          name: 'Parts',
          range: { sheet: 'Parts', row: 0, column: 0, rows: 4, columns: 3 },
          columns: ['part', 'width', 'count'],
        },
      ],
    },
    { name: 'Notes', hidden: true, cells: [row('kept')], tables: [] },
    { name: 'Locked', protected: true, cells: [row('do not touch')], tables: [] },
    { name: 'Blank', cells: [], tables: [] },
  ],
};

export interface Hosted {
  readonly workbook: Workbook;
  readonly dispose: () => void | Promise<void>;
  /** False where the host does not tell which formula a spilled cell belongs to. */
  readonly explainsSpills?: boolean;
  /** Edits a cell as a person would, in the host's own grid; left out where the host has none. */
  readonly type?: (sheet: string, row: number, column: number, value: number | string) => Promise<void>;
}

const at = (sheet: string, row: number, column: number, rows = 1, columns = 1): RangeAddress => ({
  sheet,
  row,
  column,
  rows,
  columns,
});

export function workbookContract(name: string, make: () => Promise<Hosted>): void {
  describe(`the Workbook contract: ${name}`, () => {
    let hosted: Hosted;
    let workbook: Workbook;
    beforeEach(async () => {
      hosted = await make();
      workbook = hosted.workbook;
    });
    afterEach(() => hosted.dispose());

    const read = async (range: RangeAddress): Promise<Cell[][]> => workbook.read(range);
    const refused = async (edits: readonly Edit[]): Promise<WorkbookError['code'] | undefined> => {
      const error: unknown = await workbook.apply('refused', edits).catch((thrown: unknown) => thrown);
      return error instanceof WorkbookError ? error.code : undefined;
    };

    describe('reading', () => {
      it('lists sheets in order, hidden and protected ones marked', async () => {
        expect(await workbook.sheets()).toEqual([
          { name: 'Parts', visible: true, protected: false },
          { name: 'Notes', visible: false, protected: false },
          { name: 'Locked', visible: true, protected: true },
          { name: 'Blank', visible: true, protected: false },
        ]);
      });

      it('gives the rectangle from A1 that holds every used cell', async () => {
        expect(await workbook.usedRange('Parts')).toEqual(at('Parts', 0, 0, 6, 4));
        expect(await workbook.usedRange('Blank')).toBeUndefined();
      });

      it('reads numbers, text, booleans, blanks as null and errors as CellError', async () => {
        const cells = await read(at('Parts', 1, 0, 5, 4));
        expect(cells[0]).toEqual(['web', 12.5, 1, null]);
        expect(cells[3]).toEqual([null, null, null, null]);
        expect(cells[4]?.slice(0, 2)).toEqual(['total', 21.5]);
        expect(cells[4]?.[2]).toBeInstanceOf(CellError);
        expect((cells[4]?.[2] as CellError).code).toBe('#DIV/0!');
        expect(cells[4]?.[3]).toBe(true);
      });

      it('gives sheets and tables at once, with the cells of small sheets', async () => {
        const { sheets, tables, cells } = await workbook.outline(['notes', 'None', 'Blank']);
        expect(sheets).toEqual(await workbook.sheets());
        expect(tables).toEqual(await workbook.tables());
        expect(cells).toEqual([[['kept']], undefined, undefined]);
      });

      it('reads several sheets at once: whole, by their first rows, with formulas', async () => {
        const read = await workbook.readSheets([
          { sheet: 'Parts', formulas: true },
          { sheet: 'Blank' },
          { sheet: 'Parts', rows: 2 },
          { sheet: 'Notes', rows: 30 },
        ]);
        const [whole, blank, top, notes] = read;
        expect(whole!.values).toEqual(await workbook.read(at('Parts', 0, 0, 6, 4)));
        expect(whole!.formulas).toEqual(await workbook.readFormulas(at('Parts', 0, 0, 6, 4)));
        expect(whole!.formulas![5]).toEqual([null, '=SUM(Widths)', '=1/0', null]);
        expect(blank).toBeUndefined();
        expect(top).toEqual({ values: whole!.values.slice(0, 2) });
        expect(notes).toEqual({ values: [['kept']] });
        expect(await workbook.readSheets([])).toEqual([]);
        await expect(workbook.readSheets([{ sheet: 'None' }])).rejects.toMatchObject({ code: 'no-sheet' });
      });

      it('reads past the used cells as blank', async () => {
        expect(await read(at('Parts', 500, 40, 2, 2))).toEqual([
          [null, null],
          [null, null],
        ]);
      });

      it('reads formulas as typed, null where there is none', async () => {
        expect(await workbook.readFormulas(at('Parts', 5, 0, 1, 3))).toEqual([[null, '=SUM(Widths)', '=1/0']]);
      });

      it('refuses a sheet that does not exist', async () => {
        await expect(workbook.read(at('None', 0, 0))).rejects.toMatchObject({
          name: 'WorkbookError',
          code: 'no-sheet',
        });
        await expect(workbook.readFormulas(at('None', 0, 0))).rejects.toMatchObject({ code: 'no-sheet' });
        await expect(workbook.usedRange('None')).rejects.toMatchObject({ code: 'no-sheet' });
      });

      it('lists tables with their range and columns', async () => {
        expect(await workbook.tables()).toEqual([
          { name: 'Parts', range: at('Parts', 0, 0, 4, 3), columns: ['part', 'width', 'count'] },
        ]);
        expect(await workbook.names()).toEqual([{ name: 'Widths', refersTo: 'Parts!$B$2:$B$4' }]);
        expect(await workbook.dates1904()).toBeUndefined();
      });
    });

    describe('writing', () => {
      it('writes values of every kind and clears with null', async () => {
        await workbook.apply('write', [
          {
            kind: 'write',
            range: at('Blank', 1, 1, 2, 3),
            cells: [
              [1.25, 'a part', true],
              [null, '0012', false],
            ],
          },
        ]);
        expect(await read(at('Blank', 1, 1, 2, 3))).toEqual([
          [1.25, 'a part', true],
          [null, '0012', false],
        ]);
        await workbook.apply('clear', [{ kind: 'write', range: at('Blank', 1, 1), cells: [[null]] }]);
        expect(await read(at('Blank', 1, 1))).toEqual([[null]]);
      });

      it('writes text that looks like a formula as text', async () => {
        await workbook.apply('write', [{ kind: 'write', range: at('Blank', 0, 0), cells: [['=1+1']] }]);
        expect(await read(at('Blank', 0, 0))).toEqual([['=1+1']]);
        expect(await workbook.readFormulas(at('Blank', 0, 0))).toEqual([[null]]);
      });

      it('writes formulas, and a value over a formula takes its place', async () => {
        await workbook.apply('write', [{ kind: 'write', range: at('Blank', 0, 0), cells: [[{ formula: '=1+2' }]] }]);
        expect(await workbook.readFormulas(at('Blank', 0, 0))).toEqual([['=1+2']]);
        await workbook.apply('write', [{ kind: 'write', range: at('Blank', 0, 0), cells: [[4]] }]);
        expect(await workbook.readFormulas(at('Blank', 0, 0))).toEqual([[null]]);
        expect(await read(at('Blank', 0, 0))).toEqual([[4]]);
      });

      it('writes and reads a large range', async () => {
        const rows = 6000;
        const columns = 12;
        const cells = Array.from({ length: rows }, (_row, r) =>
          Array.from({ length: columns }, (_column, c) => r * columns + c),
        );
        await workbook.apply('large', [{ kind: 'write', range: at('Blank', 0, 0, rows, columns), cells }]);
        expect(await read(at('Blank', 0, 0, rows, columns))).toEqual(cells);
        expect(await workbook.usedRange('Blank')).toEqual(at('Blank', 0, 0, rows, columns));
      });

      it('adds a sheet and a table on it', async () => {
        await workbook.apply('add', [
          { kind: 'addSheet', name: 'Prices' },
          {
            kind: 'write',
            range: at('Prices', 0, 0, 2, 2),
            cells: [
              ['item', 'price'],
              ['AD4', 12],
            ],
          },
          { kind: 'addTable', name: 'PriceList', range: at('Prices', 0, 0, 2, 2) },
          {
            kind: 'format',
            range: at('Prices', 1, 1),
            numberFormat: '0.00',
            bold: true,
            fill: '#ffeeaa',
            columnWidth: 14,
          },
          { kind: 'choices', range: at('Prices', 1, 0), choices: ['AD4', 'AD5'] },
        ]);
        expect((await workbook.sheets()).at(-1)).toEqual({ name: 'Prices', visible: true, protected: false });
        expect((await workbook.tables()).at(-1)).toEqual({
          name: 'PriceList',
          range: at('Prices', 0, 0, 2, 2),
          columns: ['item', 'price'],
        });
        expect(await read(at('Prices', 1, 0, 1, 2))).toEqual([['AD4', 12]]);
      });

      it('inserts table rows at the top, in the middle and at the end, and moves what is below', async () => {
        await workbook.apply('top', [{ kind: 'insertTableRows', table: 'Parts', at: 0, cells: [['skin', 30, 1]] }]);
        await workbook.apply('end', [
          {
            kind: 'insertTableRows',
            table: 'Parts',
            at: 4,
            cells: [
              ['tip', 5, 1],
              ['end', 6],
            ],
          },
        ]);
        await workbook.apply('middle', [{ kind: 'insertTableRows', table: 'Parts', at: 2, cells: [['clip', 1, 4]] }]);
        const names = (await read(at('Parts', 0, 0, 10, 1))).flat();
        expect(names).toEqual(['part', 'skin', 'web', 'clip', 'cap', 'rib', 'tip', 'end', null, 'total']);
        expect(await read(at('Parts', 7, 0, 1, 3))).toEqual([['end', 6, null]]);
        expect((await workbook.tables())[0]?.range).toEqual(at('Parts', 0, 0, 8, 3));
      });

      it('removes table rows and moves up what is below', async () => {
        await workbook.apply('remove', [{ kind: 'removeTableRows', table: 'Parts', at: 1, count: 2 }]);
        expect((await read(at('Parts', 0, 0, 4, 1))).flat()).toEqual(['part', 'web', null, 'total']);
        expect((await workbook.tables())[0]?.range).toEqual(at('Parts', 0, 0, 2, 3));
      });

      it('keeps what stands beside a table in its row', async () => {
        await workbook.apply('note', [{ kind: 'write', range: at('Parts', 2, 5), cells: [['beside']] }]);
        await workbook.apply('insert', [{ kind: 'insertTableRows', table: 'Parts', at: 0, cells: [['skin', 30, 1]] }]);
        expect(await read(at('Parts', 2, 5))).toEqual([['beside']]);
      });
    });

    describe('refusals', () => {
      it('names what is wrong', async () => {
        expect(await refused([{ kind: 'write', range: at('None', 0, 0), cells: [[1]] }])).toBe('no-sheet');
        expect(await refused([{ kind: 'write', range: at('Locked', 0, 0), cells: [[1]] }])).toBe('protected');
        expect(await refused([{ kind: 'write', range: at('Parts', 0, 0, 1, 2), cells: [[1]] }])).toBe('shape');
        expect(await refused([{ kind: 'write', range: at('Parts', 1_048_576, 0), cells: [[1]] }])).toBe('off-sheet');
        expect(await refused([{ kind: 'removeTableRows', table: 'None', at: 0, count: 1 }])).toBe('no-table');
        expect(await refused([{ kind: 'removeTableRows', table: 'Parts', at: 2, count: 2 }])).toBe('off-sheet');
        expect(await refused([{ kind: 'addSheet', name: 'parts' }])).toBe('name-taken');
        expect(await refused([{ kind: 'addTable', name: 'parts', range: at('Blank', 0, 0, 2, 2) }])).toBe('name-taken');
      });

      it('takes out a sheet that is empty, and no other', async () => {
        const names = async () => (await workbook.sheets()).map((sheet) => sheet.name);
        expect(await refused([{ kind: 'removeSheet', name: 'Locked' }])).toBe('protected');
        expect(await refused([{ kind: 'removeSheet', name: 'None' }])).toBe('no-sheet');
        await workbook.apply('not empty', [{ kind: 'removeSheet', name: 'Parts' }]);
        await workbook.apply('no longer empty', [
          { kind: 'write', range: at('Blank', 3, 3), cells: [['note']] },
          { kind: 'removeSheet', name: 'Blank' },
        ]);
        expect(await names()).toEqual(['Parts', 'Notes', 'Locked', 'Blank']);
        expect(await workbook.undo()).toBe(true);
        await workbook.apply('in its place', [
          { kind: 'addSheet', name: 'Prices' },
          { kind: 'removeSheet', name: 'blank' },
        ]);
        expect(await names()).toEqual(['Parts', 'Notes', 'Locked', 'Prices']);
        expect(await workbook.undo()).toBe(true);
        expect(await names()).toEqual(['Parts', 'Notes', 'Locked', 'Blank']);
        expect(await workbook.redo()).toBe(true);
        expect(await names()).toEqual(['Parts', 'Notes', 'Locked', 'Prices']);
      });

      it('changes nothing when a later edit of the list is refused', async () => {
        expect(
          await refused([
            { kind: 'write', range: at('Parts', 1, 1), cells: [[99]] },
            { kind: 'removeTableRows', table: 'None', at: 0, count: 1 },
          ]),
        ).toBe('no-table');
        expect(await read(at('Parts', 1, 1))).toEqual([[12.5]]);
        expect(await workbook.undo()).toBe(false);
      });
    });

    describe('undo', () => {
      it('has nothing to take back at first', async () => {
        expect(await workbook.undo()).toBe(false);
        expect(await workbook.redo()).toBe(false);
      });

      it('takes back all edits of one step, in whatever order they stood, and makes them again', async () => {
        const all = at('Parts', 0, 0, 8, 4);
        const before = await read(all);
        await workbook.apply('many', [
          { kind: 'write', range: at('Parts', 1, 1), cells: [[13]] },
          { kind: 'insertTableRows', table: 'Parts', at: 1, cells: [['skin', 30, 1]] },
          { kind: 'write', range: at('Parts', 3, 1), cells: [[14]] },
          { kind: 'removeTableRows', table: 'Parts', at: 0, count: 1 },
          { kind: 'write', range: at('Parts', 1, 0), cells: [['first']] },
        ]);
        const after = await read(all);
        expect(after.map((line) => line[0]).slice(0, 4)).toEqual(['part', 'first', 'cap', 'rib']);
        expect(await workbook.undo()).toBe(true);
        await expect.poll(() => read(all)).toEqual(before);
        expect((await workbook.tables())[0]?.range).toEqual(at('Parts', 0, 0, 4, 3));
        expect(await workbook.undo()).toBe(false);
        expect(await workbook.redo()).toBe(true);
        expect((await read(all)).map((line) => line.slice(0, 1))).toEqual(after.map((line) => line.slice(0, 1)));
        expect(await workbook.redo()).toBe(false);
      });

      it('takes back a new sheet with its table', async () => {
        await workbook.apply('add', [
          { kind: 'addSheet', name: 'Prices' },
          { kind: 'write', range: at('Prices', 0, 0, 2, 1), cells: [['item'], ['AD4']] },
          { kind: 'addTable', name: 'PriceList', range: at('Prices', 0, 0, 2, 1) },
        ]);
        expect(await workbook.undo()).toBe(true);
        expect((await workbook.sheets()).map((sheet) => sheet.name)).not.toContain('Prices');
        expect((await workbook.tables()).map((table) => table.name)).toEqual(['Parts']);
      });

      it('takes back steps one after the other, the last first', async () => {
        await workbook.apply('first', [{ kind: 'write', range: at('Parts', 1, 1), cells: [[1]] }]);
        await workbook.apply('second', [{ kind: 'write', range: at('Parts', 1, 1), cells: [[2]] }]);
        await workbook.undo();
        expect(await read(at('Parts', 1, 1))).toEqual([[1]]);
        await workbook.undo();
        expect(await read(at('Parts', 1, 1))).toEqual([[12.5]]);
      });
    });

    describe('events', () => {
      it('tells of an edit through apply as the pane’s, before apply resolves, until unsubscribed', async () => {
        const changes: WorkbookChange[] = [];
        const stop = workbook.onChange((change) => changes.push(change));
        await workbook.apply('write', [{ kind: 'write', range: at('Parts', 1, 1), cells: [[3]] }]);
        await expect
          .poll(() => changes.some((change) => change.by === 'pane' && change.sheets.includes('Parts')))
          .toBe(true);
        expect(changes.some((change) => change.by === 'user')).toBe(false);
        stop();
        const told = changes.filter((change) => change.by === 'pane').length;
        await workbook.apply('write', [{ kind: 'write', range: at('Parts', 1, 1), cells: [[4]] }]);
        expect(changes.filter((change) => change.by === 'pane').length).toBe(told);
      });

      it('tells of a person’s edit in the grid as the user’s', async ({ skip }) => {
        if (!hosted.type) skip('this host has no grid of its own');
        const changes: WorkbookChange[] = [];
        workbook.onChange((change) => changes.push(change));
        await hosted.type!('Parts', 2, 1, 5);
        await expect.poll(() => changes).toContainEqual({ by: 'user', sheets: ['Parts'] });
        expect(await read(at('Parts', 2, 1))).toEqual([[5]]);
      });

      it('tells of the selection', async () => {
        const selections: RangeAddress[] = [];
        const stop = workbook.onSelection((range) => selections.push(range));
        await workbook.select(at('Locked', 0, 0));
        await workbook.select(at('Parts', 1, 1, 2, 2));
        expect(await workbook.selection()).toEqual(at('Parts', 1, 1, 2, 2));
        await expect.poll(() => selections.at(-1)).toEqual(at('Parts', 1, 1, 2, 2));
        stop();
      });
    });

    describe('calculation', () => {
      const shows = async (range: RangeAddress, cell: Cell): Promise<void> =>
        expect.poll(() => read(range)).toEqual([[cell]]);

      it('follows an edit, and tells of it', async () => {
        const changes: WorkbookChange[] = [];
        workbook.onChange((change) => changes.push(change));
        await workbook.apply('write', [{ kind: 'write', range: at('Parts', 1, 1), cells: [[10]] }]);
        await shows(at('Parts', 5, 1), 19);
        await expect
          .poll(() => changes.some((change) => change.by === 'recalculation' && change.sheets.includes('Parts')))
          .toBe(true);
      });

      it('keeps formulas on their cells when rows move, and follows undo', async () => {
        await workbook.apply('formula', [
          { kind: 'write', range: at('Blank', 0, 0), cells: [[{ formula: '=SUM(Parts[width])+0*Parts!B4' }]] },
        ]);
        await shows(at('Blank', 0, 0), 21.5);
        await workbook.apply('insert', [{ kind: 'insertTableRows', table: 'Parts', at: 3, cells: [['tip', 4, 1]] }]);
        await shows(at('Blank', 0, 0), 25.5);
        await workbook.apply('insert', [{ kind: 'insertTableRows', table: 'Parts', at: 0, cells: [['skin', 100, 1]] }]);
        await shows(at('Blank', 0, 0), 125.5);
        expect(await workbook.readFormulas(at('Blank', 0, 0))).toEqual([['=SUM(Parts[width])+0*Parts!B5']]);
        await workbook.apply('remove', [{ kind: 'removeTableRows', table: 'Parts', at: 1, count: 1 }]);
        await shows(at('Blank', 0, 0), 113);
        await workbook.undo();
        await shows(at('Blank', 0, 0), 125.5);
        await workbook.undo();
        await workbook.undo();
        await shows(at('Blank', 0, 0), 21.5);
        expect(await workbook.readFormulas(at('Blank', 0, 0))).toEqual([['=SUM(Parts[width])+0*Parts!B4']]);
      });

      it('spills a TARE function over a column, and explains its error cells', async () => {
        await workbook.apply('formula', [
          { kind: 'write', range: at('Blank', 0, 0, 3, 1), cells: [[2], [-3], [4]] },
          { kind: 'write', range: at('Blank', 0, 1), cells: [[{ formula: '=TARE.AREA.RECT(A1:A4,2)' }]] },
        ]);
        await shows(at('Blank', 2, 1), 8);
        const spilled = (await read(at('Blank', 0, 1, 4, 1))).flat();
        expect(spilled[0]).toBe(4);
        expect(spilled[1]).toBeInstanceOf(CellError);
        expect(spilled[3]).toBeNull();
        expect(await workbook.usedRange('Blank')).toMatchObject({ columns: 2 });
        if (hosted.explainsSpills ?? true) expect(await workbook.explain('Blank', 1, 1)).toContain('length: got -3');
        expect(await workbook.explain('Blank', 0, 1)).toBeUndefined();
      });
    });
  });
}
