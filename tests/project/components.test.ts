import { describe, expect, it } from 'vitest';
import { reportText } from '../../src/cli/report-text';
import { openPriceBook, readPriceList } from '../../src/core/price';
import {
  BUDGET,
  JOINTS,
  PARTS,
  projectSheetsOf,
  readForm,
  readParts,
  readRivetJoints,
  missingRowEdits,
  summarise,
  weightsModel,
} from '../../src/project';
import { reportHtml } from '../../src/report';
import { CellError, type Cell, type SheetModel, type WorkbookModel } from '../../src/sheet';
import { projectWith, sheet, valuesOf } from './sheets';

const problemsOf = (sheets: Record<string, Cell[][]>): string[] =>
  summarise(valuesOf(sheets))!.problems.map(({ sheet: name, cell, message }) => `${name}!${cell} ${message}`);

describe('one roll-up', () => {
  const values = valuesOf({
    Parts: sheet(PARTS, [
      { component: 'Wing', part: 'skin', weight: 10, arm: 10, status: 'weighed' },
      { component: 'wing ', part: 'ribs', weight: 5, arm: 10, status: 'estimated' },
      { component: 'Flügel', part: 'a', weight: 1, arm: 1, status: 'weighed' },
      { component: 'FLU\u0308GEL', part: 'b', weight: 1, arm: 1, status: 'weighed' },
    ]),
    Joints: sheet(JOINTS, [{ joint: 'seam', component: 'WING', count: 10, cost: 1 }]),
    Budget: sheet(BUDGET, [
      { component: ' wing', budget: 16 },
      { component: 'Tail', budget: 4 },
    ]),
  });
  const summary = summarise(values)!;
  const model = weightsModel(values)!;

  it('is the same in the summary, the weights and the report, in the first spelling', () => {
    expect(summary.components.map(({ name, weight, rivets }) => [name, weight, rivets])).toEqual([
      ['Wing', 15, 10],
      ['Flügel', 2, 0],
      ['Tail', 0, 0],
    ]);
    const bySummary = new Map(summary.components.map((one) => [one.name, one]));
    for (const { name, current, forecast, budget, margin } of [...model.components, model.total]) {
      const one = name === 'Total' ? summary.total : bySummary.get(name)!;
      expect([one.weight, one.forecast, one.budget, one.margin]).toEqual([current, forecast, budget, margin]);
    }
    const html = reportHtml({ title: 'a', date: '2026-01-01', sheets: projectWith(values) })!;
    expect(html).not.toMatch(/>wing\s*</);
    expect(readParts(values)!.rows.map(({ component }) => component)).toEqual(['Wing', 'Wing', 'Flügel', 'Flügel']);
  });

  it('has margin as budget less forecast, and says so; forecast and now are both columns', () => {
    // 10 weighed and 5 estimated (25 % growth): 16.25 lb against 16.
    expect(summary.components[0]).toMatchObject({ weight: 15, forecast: 16.25, budget: 16, margin: -0.25 });
    const printed = reportText('a', summary);
    expect(printed).toMatch(/Now .*Forecast +Budget +Margin/);
    expect(printed).toMatch(/Wing .*15\.000 .*16\.25 +16\.00 +−0\.25/);
    expect(printed).toContain('Margin is budget less forecast; now is what the list weighs today.');
  });
});

describe('rows that are no parts', () => {
  const part = (component: string, name: string, weight: Cell): Record<string, Cell> => ({
    component,
    part: name,
    quantity: 1,
    weight,
    arm: 1,
    status: 'weighed',
  });
  const label = Object.fromEntries(PARTS.columns.map(({ key, label: text }) => [key, text]));

  it('leave out the header that is repeated also where a column’s unit cannot be read', () => {
    const labels = PARTS.columns.map(({ key, label }) => (key === 'arm' ? 'Arm (furlong)' : label));
    const row = PARTS.columns.map(
      ({ key }) => ({ component: 'Wing', part: 'skin', weight: 2, arm: 3 })[key as string] ?? null,
    );
    const form = readForm(PARTS, [labels, row, labels, row])!;
    expect(form.rows.map((one) => one.row)).toEqual([1, 3]);
    expect(form.problems.map(({ cell, message }) => `${cell} ${message}`)).toContain(
      'A3 repeats the header: the row is left out',
    );
  });

  it('totals, subtotals and the header again are named and left out', () => {
    const sheets = {
      Parts: sheet(PARTS, [
        part('Wing', 'skin', 2),
        part('Wing', 'rib', 3),
        part('', '', 5),
        label,
        part('Tail', 'fin', 4),
        part('Tail', 'Total', 4),
        part('Wing total', '', 5),
        part('Subtotal, tail', '', 4),
        part('Total', 'x', 9),
        part('Tail', 'Total pressure line', 1),
      ]),
      Budget: sheet(BUDGET, [
        { component: 'Wing', budget: 6 },
        { component: 'Tail', budget: 6 },
        { component: 'Total', budget: 12 },
      ]),
    };
    const { components, total } = summarise(valuesOf(sheets))!;
    expect(components.map(({ name, weight }) => [name, weight])).toEqual([
      ['Wing', 5],
      ['Tail', 5],
    ]);
    expect(total).toMatchObject({ weight: 10, budget: 12, parts: 4 });
    expect(problemsOf(sheets)).toEqual([
      'Parts!A6 repeats the header: the row is left out',
      'Parts!M5 is the sum of the rows above: the row is left out',
      'Parts!B8 says "Total": the row is taken for a sum and left out',
      'Parts!A9 says "Wing total": the row is taken for a sum and left out. Give a component another name',
      'Parts!A10 says "Subtotal, tail": the row is taken for a sum and left out. Give a component another name',
      'Parts!A11 says "Total": the row is taken for a sum and left out. Give a component another name',
      'Budget!A5 says "Total": the row is taken for a sum and left out. Give a component another name',
    ]);
  });

  it('two rows that weigh as much as each other are none', () => {
    const sheets = { Parts: sheet(PARTS, [part('Wing', 'left', 2), part('', '', 2), part('Wing', 'right', 4)]) };
    expect(summarise(valuesOf(sheets))!.total.weight).toBe(8);
    expect(problemsOf(sheets)).toEqual([]);
  });

  it('a date, a text and another unit in the weight are named by their cell', () => {
    const sheets = {
      Parts: sheet(PARTS, [
        part('Wing', 'date', 46_030),
        part('Wing', 'text', 'heavy'),
        part('Wing', 'unit', '2.5 kg'),
        part('Wing', 'fraction', '1 1/2'),
        part('Wing', 'own unit', '2.5 lb'),
        { ...part('Wing', 'on the scale', 1), weighed: '16 oz' },
      ]),
    };
    expect(summarise(valuesOf(sheets))!.total.weight).toBe(5);
    // 2.5 kg / 0.45359237 = 5.51156 lb
    expect(problemsOf(sheets)).toEqual([
      'Parts!M3 holds a date (2026-01-08); takes a number of pounds; left out of the weights',
      'Parts!M4 got "heavy"; takes a number of pounds; left out of the weights',
      'Parts!M5 holds kilograms ("2.5 kg"), but the column is in pounds: type 5.51156',
      'Parts!H8 holds ounces ("16 oz"), but the column is in pounds: type 1',
    ]);
  });

  it('a metric list holds whole kilograms, and grams as many as a day has', () => {
    const columns = ['Component', 'Part', 'Weight (g)', 'Arm (mm)'];
    const values = valuesOf({ Parts: [columns, ['Wing', 'spar', 41_000, 1]] });
    expect(summarise(values)!.problems).toEqual([]);
    const dated = valuesOf({
      Parts: [
        ['Component', 'Part', 'Weight (kg)'],
        ['Wing', 'spar', 46_030],
      ],
    });
    expect(summarise(dated)!.problems[0]!.message).toBe(
      'holds a date (2026-01-08); takes a number of kilograms; left out of the weights',
    );
  });
});

describe('costs', () => {
  const book = openPriceBook(
    readPriceList([
      ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency'],
      ['Skin', 'sheet', 'sheet', '48 x 144', 100, 'USD'],
      ['Tube', 'bar', 'each', 144, 50, 'EUR'],
    ]),
  );
  const row = (component: string, item: string, cost: Cell): Record<string, Cell> => ({
    component,
    part: item,
    weight: 1,
    arm: 1,
    item,
    use: 1,
    cost,
  });

  it('of two currencies never add up to one number', () => {
    const values = valuesOf({
      Parts: sheet(PARTS, [row('Wing', 'Skin', 10), row('Wing', 'tube ', 5), row('Tail', 'SKIN', 2)]),
    });
    const { components, total } = summarise(values, 'in-lb', book)!;
    expect(components.map(({ cost }) => cost)).toEqual([undefined, 2]);
    expect(total.cost).toBeUndefined();
    expect(total.costs.amounts).toEqual([
      { currency: 'USD', amount: 12 },
      { currency: 'EUR', amount: 5 },
    ]);
    const printed = reportText('a', summarise(values, 'in-lb', book)!);
    expect(printed).toContain('12.00 USD + 5.00 EUR');
    expect(printed).not.toContain('17.00');
  });

  it.each<[string, Record<string, Cell[][]>]>([
    [
      'a part in error',
      { Parts: sheet(PARTS, [row('Wing', 'Skin', 10), row('Wing', 'X', new CellError('#N/A', 'item'))]) },
    ],
    ['a part without a cost', { Parts: sheet(PARTS, [row('Wing', 'Skin', 10), row('Wing', 'X', null)]) }],
    [
      'a rivet in error',
      {
        Parts: sheet(PARTS, [row('Wing', 'Skin', 10)]),
        Joints: sheet(JOINTS, [
          { joint: 'a', component: 'wing', rivet: 'MS20470AD3-4', count: 9, cost: new CellError('#N/A', 'item') },
        ]),
      },
    ],
  ])('are incomplete with %s, everywhere', (_what, sheets) => {
    const values = valuesOf(sheets);
    const summary = summarise(values)!;
    expect(summary.components.map(({ cost }) => cost)).toEqual([undefined]);
    expect(summary.total).toMatchObject({ cost: undefined, costs: { unpriced: 1 } });
    expect(reportText('a', summary).match(/incomplete/g)).toHaveLength(2);
    const html = reportHtml({ title: 'a', date: '2026-01-01', sheets: projectWith(values) })!;
    expect(html.match(/incomplete/g)!.length).toBeGreaterThan(2);
    expect(html).not.toMatch(/<td[^>]*>10\.00<\/td>\s*<\/tr>\s*<\/tfoot>/);
  });
});

describe('the price list', () => {
  const cellsOf = (rows: Cell[][]): SheetModel['cells'] =>
    rows.map((line) => line.map((value) => (value === null ? undefined : { value })));
  const prices = (currency: string): Cell[][] => [
    ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency'],
    ['Skin', 'sheet', 'sheet', '48 x 144', 100, currency],
  ];

  it('is the table Prices wherever it stands, for the report as for the pane', () => {
    const range = { sheet: 'Prices 2', row: 0, column: 0, rows: 2, columns: 6 };
    const model: WorkbookModel = {
      sheets: [
        {
          name: 'Parts',
          cells: cellsOf(
            sheet(PARTS, [{ component: 'Wing', part: 'a', weight: 1, arm: 1, item: 'Skin', use: 1, cost: 7 }]),
          ),
          tables: [],
        },
        { name: 'Prices', cells: cellsOf(prices('EUR')), tables: [] },
        {
          name: 'Prices 2',
          cells: cellsOf(prices('USD')),
          tables: [{ name: 'prices', range, columns: prices('')[0]!.map(String) }],
        },
      ],
      names: [],
      styles: [],
    };
    const sheets = projectSheetsOf(model);
    expect(sheets.prices).toMatchObject({ sheet: 'Prices 2', range, currency: 'USD' });
    const html = reportHtml({ title: 'a', date: '2026-01-01', sheets })!;
    expect(html).toContain('USD');
    expect(html).not.toContain('EUR');
  });
});

describe('a number that is likely in another unit', () => {
  it('is asked about by its cell, and computed as typed', () => {
    const sheets = {
      Parts: sheet(PARTS, [
        { component: 'Wing', part: 'a', thickness: 0.5, area: 10, weight: 1, arm: 1 },
        { component: 'Wing', part: 'b', thickness: '3/32', area: 64_516, weight: 1, arm: 1 },
      ]),
    };
    expect(problemsOf(sheets)).toEqual([
      'Parts!E3 is 0.5 inches: were millimetres meant? It is counted as typed',
      expect.stringMatching(/^Parts!F4 is 64516 square inches, more than two sheets .*were square millimetres meant\?/),
    ]);
    expect(summarise(valuesOf(sheets))!.total.weight).toBe(2);
    // The text is read as the functions read it.
    expect(readParts(valuesOf(sheets))!.rows[1]!.thickness).toBe(3 / 32);
    const metric = [
      ['Component', 'Part', 'Thickness (mm)', 'Flat area (mm²)', 'Weight (kg)', 'Arm (mm)'],
      ['a', 'b', 0.8, 64_516, 1, 1],
    ];
    expect(problemsOf({ Parts: metric })).toEqual([]);
  });
});

describe('the rivets tab', () => {
  it('reads a joint whose diameter and grip are typed as texts, as the sheet’s formulas do', () => {
    const joints = sheet(JOINTS, [
      {
        joint: 'seam',
        component: 'Wing',
        diameter: '3/32',
        sheet1: '.025"',
        sheet2: '1/32',
        count: '120',
        style: 'universal',
      },
    ]);
    const read = readRivetJoints(valuesOf({ Joints: joints }))!;
    expect(read.problems).toEqual([]);
    expect(read.joints).toMatchObject([{ diameter: 3 / 32, grip: 0.025 + 1 / 32, count: 120 }]);
  });
});

describe('rivets', () => {
  const joint = { joint: 'seam', rivet: 'MS20470AD4-4', count: 100, weight: 0.05, moment: 0.5, cost: 1 };
  const sheets = {
    Parts: sheet(PARTS, [
      { component: 'Wing', part: 'skin', weight: 1, arm: 1 },
      { component: 'Tail', part: 'skin', weight: 1, arm: 1 },
      { component: 'Tail', part: 'Rivets, from the joints', weight: 0.05, arm: 10 },
    ]),
    Joints: sheet(JOINTS, [
      { ...joint, component: 'wing ' },
      { ...joint, component: 'Tail' },
      { ...joint, component: 'Wing' },
    ]),
  };

  it('without a row in the parts list are named; no weight is added that is in no cell', () => {
    expect(problemsOf(sheets)).toEqual([
      'Joints!Q3 weighs the rivets of wing, which no row Rivets of the parts list brings in: their cost counts and their weight does not',
      'Joints!B3 is "wing ", and "Wing" above: formulas such as SUMIFS count them apart. Type the name the same way, without extra spaces',
    ]);
    expect(summarise(valuesOf(sheets))!.total.weight).toBeCloseTo(2.05, 12);
  });

  it('are brought in by a row a component, a formula over Joints, below the parts', () => {
    const values = valuesOf(sheets);
    const model = weightsModel(values)!;
    const edits = missingRowEdits(values, model.parts, model.missing)!;
    const written = edits.flatMap((edit) =>
      edit.kind === 'write' ? [[edit.range.row, edit.range.column, edit.cells[0]![0]]] : [],
    );
    expect(written).toContainEqual([5, 0, 'wing']);
    expect(written).toContainEqual([5, 6, { formula: '=SUMIFS(Joints!$Q$3:$Q$104,Joints!$B$3:$B$104,A6)' }]);
  });
});
