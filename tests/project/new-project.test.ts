/** The workbook that one click makes ready, computed by the embedded engine and by the calculator of files. */
import { beforeAll, describe, expect, it } from 'vitest';
import { readProject } from '../helpers/project';
import { CellError, isBlank, parseRange, type Cell, type CellModel } from '../../src/sheet';
import {
  existingProject,
  HARDWARE_FORM,
  JOINTS,
  newProjectEdits,
  PARTS,
  summarise,
  weightsModel,
  type NewProject,
} from '../../src/project';
import { textWidth } from '../../src/core/text-width';
import { recalculate } from '../../src/calculation';
import {
  calculate,
  loadWorkbook,
  calculatorHere,
  startEngine,
  UniverWorkbook,
  type Engine,
} from '../../src/hosts/univer';
import { type Edit, type SheetModel, type WorkbookModel } from '../../src/sheet';
import { readWorkbook, writeWorkbook } from '../../src/xlsx';

type Units = 'in-lb' | 'mm-kg';
const KG = 0.45359237;
const MM = 25.4;
/** Factor from inch-pound by the sign in a label. */
const FACTORS: Readonly<Record<string, number>> = {
  mm: MM,
  'mm²': MM ** 2,
  kg: KG,
  'kg·mm': KG * MM,
  N: 4.4482216152605,
};

const book = (...sheets: readonly SheetModel[]): WorkbookModel => ({ sheets, names: [], styles: [] });
const blankSheet = (name: string, cells: SheetModel['cells'] = []): SheetModel => ({ name, cells, tables: [] });

let number = 0;
class Made {
  private constructor(
    readonly engine: Engine,
    readonly id: string,
    readonly workbook: UniverWorkbook,
    readonly project: NewProject,
  ) {}

  static async of(units: Units, examples = true, model = book(blankSheet('Sheet1'))): Promise<Made> {
    const engine = startEngine({ calculator: calculatorHere });
    const id = `new-project-${number++}`;
    loadWorkbook(engine, model, id, id);
    const workbook = new UniverWorkbook(engine, id, 'headless', id);
    const project = newProjectEdits({
      units,
      examples,
      today: '2026-03-31',
      existing: await existingProject(workbook),
    });
    const made = new Made(engine, id, workbook, project);
    await made.apply(project.edits);
    return made;
  }

  async apply(edits: readonly Edit[]): Promise<void> {
    await this.workbook.apply('test', edits);
    await calculate(this.engine);
  }

  async cells(sheet: string): Promise<Cell[][]> {
    const used = await this.workbook.usedRange(sheet);
    return used ? this.workbook.read(used) : [];
  }

  async errors(): Promise<string[]> {
    const found: string[] = [];
    for (const { name } of await this.workbook.sheets()) {
      (await this.cells(name)).forEach((line, row) =>
        line.forEach(
          (cell, column) =>
            cell instanceof CellError && found.push(`${name} ${row} ${column} ${cell.code} ${cell.message ?? ''}`),
        ),
      );
    }
    return found;
  }

  /** Rows of the sums beside the budget: component, weight, forecast, budget, margin, margin %, weighed %, arm, moment, cost. */
  async sums(): Promise<Cell[][]> {
    return (await this.cells('Budget'))
      .slice(5)
      .map((line) => line.slice(3, 13))
      .filter(([name]) => !isBlank(name));
  }

  /** Removes whole rows of a sheet, as a person does. */
  async removeRows(sheet: string, row: number, count: number): Promise<void> {
    // The engine moves the references of the sheet that is shown.
    await this.workbook.select({ sheet, row, column: 0, rows: 1, columns: 1 });
    this.engine.api.getWorkbook(this.id)!.getSheetByName(sheet)!.deleteRows(row, count);
    await calculate(this.engine);
  }

  async write(sheet: string, row: number, column: number, cells: Cell[][]): Promise<void> {
    await this.apply([
      { kind: 'write', range: { sheet, row, column, rows: cells.length, columns: cells[0]!.length }, cells },
    ]);
  }
}

/** Rows of a sheet as they stand in its own units, by the form's keys. */
async function rowsOf(
  made: Made,
  form: typeof PARTS | typeof JOINTS | typeof HARDWARE_FORM,
): Promise<Record<string, Cell>[]> {
  return (await made.cells(form.sheet))
    .slice(5)
    .filter(([first]) => !isBlank(first))
    .map((line) => Object.fromEntries(form.columns.map(({ key }, index) => [key, line[index]!])));
}

describe.each(['in-lb', 'mm-kg'] as const)('a workbook made ready in %s', (units) => {
  let made: Made;
  beforeAll(async () => {
    made = await Made.of(units);
  }, 60_000);

  it('has no cell in error and no finding', async () => {
    expect(await made.errors()).toEqual([]);
    const { values } = await readProject(made.workbook);
    expect(summarise(values)!.problems).toEqual([]);
    expect(weightsModel(values)!.problems).toEqual([]);
    expect((await rowsOf(made, JOINTS)).map(({ rivet, check }) => [rivet, check])).toEqual([
      ['MS20470AD3-3', 'ok'],
      ['BLIND-AA-41', 'ok'],
    ]);
  });

  it('has headers that are not cut, in the widest of the common fonts', () => {
    const { sheets } = made.workbook.toModel();
    for (const form of [PARTS, JOINTS, HARDWARE_FORM]) {
      const { cells, columnWidths } = sheets.find(({ name }) => name === form.sheet)!;
      const cut = cells[4]!.filter(
        (cell, column) =>
          textWidth(String(cell?.value ?? ''), (11 * 96) / 72, true) > (columnWidths?.[column] ?? 0) * 7,
      );
      expect(cut.map((cell) => cell?.value)).toEqual([]);
    }
  });

  it('has choices that are not cut by the arrow that opens their list, in the same font', () => {
    const { sheets } = made.workbook.toModel();
    for (const { columnWidths, validations = [] } of sheets) {
      const cut = validations.flatMap(({ range, choices }) =>
        choices.filter(
          (choice) => textWidth(choice, (11 * 96) / 72) > (columnWidths?.[range.column] ?? 9) * 7 + 5 - 30,
        ),
      );
      expect(cut).toEqual([]);
    }
  });

  it('names every column with its unit', async () => {
    for (const form of [PARTS, JOINTS, HARDWARE_FORM]) {
      const labels = (await made.cells(form.sheet))[4]!;
      expect(labels).toEqual(
        form.columns.map(({ label }) =>
          units === 'in-lb'
            ? label
            : label
                .replace('(lb·in)', '(kg·mm)')
                .replace('(lb)', '(kg)')
                .replace('(in²)', '(mm²)')
                .replace('(in)', '(mm)'),
        ),
      );
    }
  });

  it('sums up what its rows say', async () => {
    const parts = await rowsOf(made, PARTS);
    const joints = await rowsOf(made, JOINTS);
    const hardware = await rowsOf(made, HARDWARE_FORM);
    const number = (cell: Cell | undefined): number => (typeof cell === 'number' ? cell : 0);
    const sums = await made.sums();
    expect(sums.map(([name]) => name)).toEqual(['Ribs', 'Spar', 'Skins', 'Total']);
    for (const [name, weight, , , , , , arm, moment, cost] of sums) {
      const of = (rows: Record<string, Cell>[]) =>
        rows.filter(({ component }) => name === 'Total' || component === name);
      const total = (rows: Record<string, Cell>[], key: string): number =>
        of(rows).reduce((sum, cells) => sum + number(cells[key]), 0);
      expect(weight).toBeCloseTo(total(parts, 'weight'), 9);
      expect(moment).toBeCloseTo(
        of(parts).reduce((sum, cells) => sum + number(cells.weight) * number(cells.arm), 0),
        6,
      );
      expect(arm).toBeCloseTo(number(moment) / number(weight), 9);
      expect(cost).toBeCloseTo(total(parts, 'cost') + total(joints, 'cost') + total(hardware, 'cost'), 9);
    }
    // The cap strips by hand: two of 60 × 1.25 × .032 in of 2.70 g/cm³.
    const strips = 2 * 60 * 1.25 * 0.032 * ((2.7 * 2.54 ** 3) / (1000 * KG));
    expect(parts[1]!.weight).toBeCloseTo(units === 'in-lb' ? strips : strips * KG, 9);
    // Rivets are weighed once: the row in the parts list is the sum of the joints.
    expect(parts[3]!.weight).toBeCloseTo(
      joints.reduce((sum, { weight }) => sum + number(weight), 0),
      12,
    );
    // And hardware: the pins as typed, the ISO 4017 screws from their dimensions, which its own column says.
    expect(parts[4]!.weight).toBeCloseTo(
      hardware.reduce((sum, { weight }) => sum + number(weight), 0),
      12,
    );
    expect(hardware.map(({ basis }) => basis)).toEqual([
      'invented, as if weighed',
      'computed from the dimensions of its standard',
    ]);
  });

  it('shows nothing in the rows that wait', async () => {
    for (const [sheet, from] of [
      ['Parts', 10],
      ['Joints', 7],
    ] as const) {
      const waiting = (await made.cells(sheet)).slice(from);
      expect(waiting.length).toBeGreaterThan(90);
      expect(waiting.flat().filter((cell) => !isBlank(cell))).toEqual([]);
    }
    expect(
      (await made.cells('Budget'))
        .slice(10)
        .flat()
        .filter((cell) => !isBlank(cell)),
    ).toEqual([]);
  });

  it('says where to type', () => {
    expect(made.project.left).toEqual([]);
    expect(made.project.added.map(({ sheet, typed, exampleRows }) => [sheet, typed, exampleRows])).toEqual([
      ['Prices', 'A2:J10', 9],
      ['Rivets', 'A2:Q31', 1],
      ['Parts', 'A6:L205', 5],
      ['Joints', 'A6:M105', 2],
      ['Hardware', 'A6:F65', 2],
      ['Budget', 'A7:B36', 3],
    ]);
  });

  it('is there: nothing more is added', async () => {
    const again = newProjectEdits({
      units,
      examples: true,
      today: '2026-03-31',
      existing: await existingProject(made.workbook),
    });
    expect(again).toEqual({ edits: [], added: [], left: [] });
  });

  it('works on when the examples are deleted, by rows or by cells', async () => {
    const own = await Made.of(units);
    await own.removeRows('Parts', 5, 5);
    await own.write(
      'Joints',
      5,
      0,
      [1, 2].map(() => Array.from({ length: 13 }, () => null)),
    );
    await own.write(
      'Hardware',
      5,
      0,
      [1, 2].map(() => Array.from({ length: 6 }, () => null)),
    );
    await own.removeRows('Budget', 6, 3);
    expect(await own.errors()).toEqual([]);
    expect((await own.sums()).map(([name, weight]) => [name, weight])).toEqual([['Total', 0]]);
    const thickness = units === 'in-lb' ? 0.04 : 1;
    const area = units === 'in-lb' ? 100 : 60_000;
    await own.write('Parts', 5, 0, [['Tail', 'Web', 2, '2024-T3', thickness, area, null, null, 180, 'released']]);
    await own.write('Budget', 6, 0, [['Tail', 1.5]]);
    await own.write('Joints', 5, 0, [
      [
        'Web',
        'Tail',
        thickness,
        thickness,
        null,
        'universal',
        units === 'in-lb' ? 0.125 : 3.2,
        20 * (units === 'in-lb' ? 1 : MM),
        units === 'in-lb' ? 1 : MM,
        units === 'in-lb' ? 0.3 : 8,
      ],
    ]);
    const [tail, total] = await own.sums();
    const weight = units === 'in-lb' ? (2 * 0.04 * 100 * 2.78 * 2.54 ** 3) / (1000 * KG) : 2 * 60_000 * 2.78e-6;
    expect([tail![0], tail![1], tail![3], tail![7], tail![8]]).toEqual([
      'Tail',
      expect.closeTo(weight, 9),
      1.5,
      180,
      expect.closeTo(weight * 180, 6),
    ]);
    expect(total![0]).toBe('Total');
    // A rivet that the price list lacks is said to be missing and not priced at nothing.
    expect((await own.errors()).filter((text) => text.startsWith('Joints'))).toEqual(['Joints 5 18 #N/A ']);
  }, 60_000);

  it('reopens from a file, with its choices, and a calculator of files computes the same', async () => {
    const model = made.workbook.toModel();
    const file = readWorkbook(await writeWorkbook(model));
    const choices = (sheet: string): unknown[] =>
      file.sheets
        .find(({ name }) => name === sheet)!
        .validations!.map(({ range, choices: some }) => [range.column, range.row, range.rows, some.length]);
    expect(choices('Parts')).toEqual([
      [3, 5, 200, 9],
      [9, 5, 200, 5],
      [10, 5, 200, 8],
      [18, 5, 200, 3],
    ]);
    // Materials and items of the price list are offered, and others may be typed.
    const lists = file.sheets.find(({ name }) => name === 'Parts')!.validations!;
    expect(lists.filter(({ open }) => open).map(({ range }) => range.column)).toEqual([3, 10]);
    expect(lists.find(({ range }) => range.column === 10)!.choices).toContain('Angle 3/4 x 3/4 x 1/8');
    expect(choices('Joints')).toEqual([
      [5, 5, 100, 4],
      [22, 5, 100, 2],
      [23, 5, 100, 2],
    ]);
    expect(choices('Prices')).toEqual([
      [1, 1, 9, 4],
      [2, 1, 9, 9],
    ]);
    expect(file.sheets.find(({ name }) => name === 'Prices')!.tables.map(({ name }) => name)).toEqual(['Prices']);
    const { model: computed } = recalculate(file);
    for (const name of ['Parts', 'Joints', 'Hardware', 'Budget']) {
      const values = (await made.cells(name)).map((line) =>
        line.map((cell) => (isBlank(cell) ? null : typeof cell === 'number' ? expect.closeTo(cell, 9) : cell)),
      );
      const again = computed.sheets.find((sheet) => sheet.name === name)!.cells;
      expect(
        values.map((line, row) =>
          line.map((_, column) => (isBlank(again[row]?.[column]?.value) ? null : again[row]![column]!.value)),
        ),
      ).toEqual(values);
    }
  });
});

describe('in the two systems of units', () => {
  it('says the same', async () => {
    const [inch, metric] = [await Made.of('in-lb'), await Made.of('mm-kg')];
    for (const { name } of await inch.workbook.sheets()) {
      if (name === 'Sheet1') continue;
      const [ours, theirs] = [await inch.cells(name), await metric.cells(name)];
      const header = theirs.findIndex((line) => line.some((cell) => /\((kg|mm)\)/.test(String(cell))));
      ours.slice(header + 1).forEach((line, r) =>
        line.forEach((cell, column) => {
          const label = [theirs[header]?.[column], theirs[header + 1]?.[column]]
            .map((one) => /\(([^)]*)\)$/.exec(String(one ?? ''))?.[1])
            .find((sign) => sign);
          const other = theirs[header + 1 + r]![column]!;
          if (typeof cell !== 'number')
            return label && /^(kg|mm)/.test(String(cell))
              ? undefined
              : typeof other === 'number'
                ? expect(other).toBe(cell)
                : undefined;
          const isUse = name === 'Parts' && column === 11;
          const factor = isUse ? MM ** 2 : (FACTORS[label ?? ''] ?? 1);
          expect(
            Math.abs((other as number) / factor - cell),
            `${name} ${header + 1 + r} ${column}`,
          ).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(cell)));
        }),
      );
    }
  }, 60_000);
});

describe('without examples', () => {
  it('waits without an error, and computes the first row that is typed', async () => {
    const made = await Made.of('in-lb', false);
    expect(made.project.added.map(({ exampleRows }) => exampleRows)).toEqual([0, 0, 0, 0, 0, 0]);
    expect(await made.errors()).toEqual([]);
    expect((await made.sums()).map(([name, weight]) => [name, weight])).toEqual([['Total', 0]]);
    await made.write('Parts', 5, 0, [['Tail', 'Bolt', 4, null, null, null, 0.03, null, 180, 'estimated']]);
    expect((await made.sums()).map(([name, weight]) => [name, weight])).toEqual([
      ['Tail', expect.closeTo(0.12, 12)],
      ['Total', expect.closeTo(0.12, 12)],
    ]);
    // A part whose size is not known yet is blank, and an item without a quantity says so.
    await made.write('Parts', 6, 0, [['Tail', 'Rib', 2, '6061-T6', 0.032, null, null, null, 170, 'estimated', 'Bolt']]);
    const row = (await made.cells('Parts'))[6]!;
    expect(isBlank(row[12])).toBe(true);
    expect(row[14]).toBeInstanceOf(CellError);
  }, 60_000);
});

describe('a workbook that has something already', () => {
  const thoughts = [[{ value: 'my thoughts' }]];

  it('keeps a sheet that holds something else, names it, and fills an empty one', async () => {
    const made = await Made.of(
      'in-lb',
      true,
      book(blankSheet('parts', thoughts), blankSheet('Prices', thoughts), blankSheet('Joints')),
    );
    expect(made.project.left).toEqual(['parts', 'Prices']);
    expect(made.project.added.map(({ name, sheet }) => [name, sheet])).toEqual([
      ['Prices', 'Prices 2'],
      ['Rivets', 'Rivets'],
      ['Joints', 'Joints'],
      ['Hardware', 'Hardware'],
      ['Budget', 'Budget'],
    ]);
    expect(await made.cells('parts')).toEqual([['my thoughts']]);
    expect(await made.cells('Prices')).toEqual([['my thoughts']]);
    expect(await made.errors()).toEqual([]);
    expect((await made.workbook.sheets()).map(({ name }) => name)).toEqual([
      'parts',
      'Prices',
      'Joints',
      'Prices 2',
      'Rivets',
      'Hardware',
      'Budget',
    ]);
  }, 60_000);

  it('sums up a parts list that stands in columns of its own', async () => {
    const cells = [
      ['Part', 'Arm (in)', 'Component', 'Weight (lb)', 'Moment (lb·in)', 'Status'],
      ['Web', 100, 'Tail', 2, 200, 'weighed'],
    ].map((line) => line.map((value) => ({ value })));
    const made = await Made.of('in-lb', true, book(blankSheet('Parts', cells)));
    expect(made.project.added.map(({ sheet }) => sheet)).toEqual(['Prices', 'Rivets', 'Joints', 'Hardware', 'Budget']);
    expect((await made.sums()).find(([name]) => name === 'Tail')).toEqual([
      'Tail',
      2,
      2,
      null,
      null,
      null,
      100,
      100,
      200,
      0,
    ]);
  }, 60_000);

  it('is all as it was after one undo', async () => {
    const made = await Made.of('mm-kg', true, book(blankSheet('Sheet1', thoughts)));
    expect(await made.workbook.undo()).toBe(true);
    expect((await made.workbook.sheets()).map(({ name }) => name)).toEqual(['Sheet1']);
    expect(await made.workbook.tables()).toEqual([]);
    expect(await made.cells('Sheet1')).toEqual([['my thoughts']]);
  }, 60_000);
});

describe('the one empty sheet of a new workbook', () => {
  const names = async ({ workbook }: Made): Promise<string[]> => (await workbook.sheets()).map(({ name }) => name);

  it('makes room, whatever it is called, and is there again after the one undo', async () => {
    const made = await Made.of('in-lb', true, book(blankSheet('Tabelle1')));
    expect(await names(made)).toEqual(['Prices', 'Rivets', 'Parts', 'Joints', 'Hardware', 'Budget']);
    expect(await made.workbook.undo()).toBe(true);
    expect(await names(made)).toEqual(['Tabelle1']);
  }, 60_000);

  it('stays where something stands on it, where there are others, and where a name refers to it', async () => {
    const note = [[{ value: 'mine' }]];
    expect(await names(await Made.of('in-lb', false, book(blankSheet('Sheet1', note))))).toContain('Sheet1');
    expect(await names(await Made.of('in-lb', false, book(blankSheet('Sheet1'), blankSheet('Sheet2'))))).toEqual(
      expect.arrayContaining(['Sheet1', 'Sheet2']),
    );
    const named = { ...book(blankSheet('Sheet1')), names: [{ name: 'Spare', refersTo: 'Sheet1!$A$1' }] };
    expect(await names(await Made.of('in-lb', false, named))).toContain('Sheet1');
  }, 60_000);
});

describe('a parts list that is made beside joints', () => {
  const joints = (unit: 'lb' | 'kg'): CellModel[][] =>
    [
      ['Joint', 'Component', 'Rivets', `Weight (${unit})`, `Moment (${unit === 'lb' ? 'lb·in' : 'kg·mm'})`],
      ['lap', 'Wing', 40, 0.02, 1.4],
      ['spar', 'Tail', 10, 0.01, 1.8],
      ['tip', 'wing', 20, 0.01, 0.9],
    ].map((line) => line.map((value) => ({ value })));

  it('has one row of rivets for each component of theirs', async () => {
    const made = await Made.of('in-lb', false, book(blankSheet('Joints', joints('lb'))));
    const rows = await rowsOf(made, PARTS);
    expect(rows.map(({ component, part, each, arm, weight }) => [component, part, each, arm, weight])).toEqual([
      [
        'Wing',
        'Rivets, from the sheet Joints',
        expect.closeTo(0.03, 9),
        expect.closeTo(2.3 / 0.03, 9),
        expect.closeTo(0.03, 9),
      ],
      [
        'Tail',
        'Rivets, from the sheet Joints',
        expect.closeTo(0.01, 9),
        expect.closeTo(180, 9),
        expect.closeTo(0.01, 9),
      ],
    ]);
    expect(made.project.added.find(({ sheet }) => sheet === 'Parts')!.exampleRows).toBe(0);
    // What a joint weighs later comes in by the formula.
    await made.write('Joints', 1, 3, [[0.05]]);
    expect((await rowsOf(made, PARTS))[0]!['weight']).toBeCloseTo(0.06, 9);
  }, 60_000);

  it('has none where the joints are in other units', async () => {
    const made = await Made.of('in-lb', false, book(blankSheet('Joints', joints('kg'))));
    expect(await rowsOf(made, PARTS)).toEqual([]);
  }, 60_000);
});

describe('the sums of a new sheet Budget', () => {
  it('say which weight is now', async () => {
    const made = await Made.of('in-lb');
    expect((await made.cells('Budget'))[4]!.slice(3, 8)).toEqual([
      'By component',
      'Now (lb)',
      'Forecast (lb)',
      'Budget (lb)',
      'Margin (lb)',
    ]);
  }, 60_000);

  it('say that a cost is incomplete where a price is missing, and add no two currencies', async () => {
    const made = await Made.of('in-lb');
    const costs = async (): Promise<Record<string, Cell>> =>
      Object.fromEntries((await made.sums()).map((line) => [String(line[0]), line[9] ?? null]));
    const before = await costs();
    expect(Object.values(before).every((cost) => typeof cost === 'number' && cost > 0)).toBe(true);
    expect(before['Total']).toBeCloseTo(Number(before['Ribs']) + Number(before['Spar']) + Number(before['Skins']), 9);
    // An item that the list does not have: #N/A in its cell, and no error in a sum.
    await made.write('Parts', 6, 10, [['Sheet of nowhere']]);
    expect(await costs()).toEqual({ ...before, Spar: 'incomplete', Total: 'incomplete' });
    // A rivet without a price.
    await made.write('Joints', 5, 14, [['MS20470AD3-9']]);
    expect(await costs()).toEqual({ ...before, Spar: 'incomplete', Skins: 'incomplete', Total: 'incomplete' });
    await made.workbook.undo();
    await made.workbook.undo();
    await calculate(made.engine);
    expect(await costs()).toEqual(before);
    await made.write('Prices', 4, 5, [['EUR']]);
    expect(new Set(Object.values(await costs()))).toEqual(new Set(['several currencies']));
  }, 60_000);
});

it('the cells that the tab says to type in are the shaded ones', async () => {
  const made = await Made.of('in-lb');
  const fills = made.project.edits.flatMap((edit) =>
    edit.kind === 'format' && edit.fill === '#fffbea' ? [edit.range] : [],
  );
  for (const { sheet, typed } of made.project.added.filter(({ name }) => name === 'Parts' || name === 'Joints')) {
    const { row, column, rows, columns } = parseRange(typed, sheet)!;
    for (let c = column; c < column + columns; c++)
      expect(
        fills.some(
          (one) =>
            one.sheet === sheet &&
            one.column <= c &&
            c < one.column + one.columns &&
            one.row === row &&
            one.rows === rows,
        ),
        `${sheet} column ${c}`,
      ).toBe(true);
  }
}, 60_000);
