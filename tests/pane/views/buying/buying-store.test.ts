import { afterEach, describe, expect, it } from 'vitest';
import { BuyingStore } from '../../../../src/pane/views/buying/buying-store';
import { amountText, quotedText, sayIn } from '../../../../src/pane/shared/quantities';
import {
  gaugeText,
  needWords,
  planWords,
  quantityText,
  sizeText,
  unitsText,
} from '../../../../src/pane/views/buying/buying-words';
import { type SheetModel, type WorkbookModel } from '../../../../src/sheet';
import { BUYING_FIRST } from '../../../../src/project';
import type { PlannedLine, ShoppingLine } from '../../../../src/core/shopping';
import { setLocale } from '../../../../src/pane/locale';
import { buyingBook, metricBook } from './model';
import { openPane, started } from '../../open-pane';

afterEach(() => setLocale());

async function open(model: WorkbookModel) {
  const { workbook, pane, type } = await openPane(model);
  const store = await started(new BuyingStore(pane));
  return { workbook, store, type, list: () => store.state.sheets!.list };
}

describe('the view Buying reads', () => {
  it('parts and joints into orders, with the usual spares where no sheet says others', async () => {
    const { store, list } = await open(buyingBook());
    const orders = Object.fromEntries(
      list().orders.map(({ supplier, lines, total }) => [supplier, { items: lines.map(({ item }) => item), total }]),
    );
    expect(orders).toEqual({
      // 7800 in² and 15 % of spares are more than one sheet of 6912 in².
      'Lowmoor Sheet & Tube': { items: ['Skin .025', 'Tube 1/2'], total: 216.2 },
      'Two Sheds Fasteners': { items: ['MS20470AD3-4'], total: 38.4 },
      'Gatepost Parts': { items: ['Bolt'], total: 7.1 },
    });
    expect(list()).toMatchObject({ toBuy: 261.7, spent: 0, total: 261.7, currency: 'USD' });
    expect(list().unpriced.map(({ item }) => item)).toEqual(['Fairing, moulded']);
    expect(store.state.sheets).toMatchObject({ silent: 1, hasTerms: false, problems: [] });
  });

  it('purchases: off the list, into what is spent', async () => {
    const { list } = await open(buyingBook({ bought: true }));
    expect(list()).toMatchObject({ spent: 140, toBuy: 164.5, total: 304.5 });
  });

  it('nothing in an empty workbook', async () => {
    const { list } = await open({ sheets: [{ name: 'Sheet1', cells: [], tables: [] }], names: [], styles: [] });
    expect(list()).toMatchObject({ orders: [], toBuy: 0, spent: 0 });
  });
});

describe('the price list', () => {
  const priced = (change: (rows: SheetModel) => SheetModel): WorkbookModel => {
    const model = buyingBook();
    return { ...model, sheets: model.sheets.map((sheet) => (sheet.name === 'Prices' ? change(sheet) : sheet)) };
  };

  it('is told apart: none, without a row, not to be read, read', async () => {
    const model = buyingBook();
    const none = await open({ ...model, sheets: model.sheets.filter(({ name }) => name !== 'Prices') });
    const empty = await open(priced((sheet) => ({ ...sheet, cells: sheet.cells.slice(0, 1), tables: [] })));
    const unread = await open(
      priced((sheet) => ({
        ...sheet,
        cells: [sheet.cells[0]!, [{ value: 'Skin .025' }, { value: 'sheet' }, { value: 'bushel' }]],
        tables: [],
      })),
    );
    const read = await open(model);
    expect([none, empty, unread, read].map(({ store }) => store.state.sheets!.prices)).toEqual([
      'none',
      'empty',
      'unread',
      'read',
    ]);
  });
});

describe('a metric workbook', () => {
  it('is shown in its units, and is given sheets in them', async () => {
    const { store, workbook, list } = await open(metricBook());
    const { units, groups } = store.state.sheets!;
    expect([units, groups.map(({ name }) => name)]).toEqual(['mm-kg', ['6061-T6 0.8 mm', 'Tube 12']]);
    expect(
      needWords(
        list().orders[0]!.lines.find(({ item }) => item === 'Skin 0.8')!,
        units,
      ),
    ).toBe('needs 3.64 m², 0.55 m² spare');
    await store.addSheet('Buying');
    const labels = (await workbook.read({ sheet: 'Buying', row: 5, column: 0, rows: 2, columns: 2 })).flat();
    expect(labels).toEqual(['Kerf (mm)', 0, 'Leftovers kept from (mm)', 76.2]);
    expect(store.state.sheets!.cutting.keepFrom).toBeCloseTo(3, 12);
  });
});

describe('sheets that are added', () => {
  it('are read, can be typed in and are undone as one', async () => {
    const { store, type, list } = await open(buyingBook());
    await store.addSheet('Buying');
    expect(store.state).toMatchObject({ message: { tone: 'done' }, sheets: { hasTerms: true, problems: [] } });
    expect(list().toBuy).toBe(261.7);
    ['Two Sheds Fasteners', 12.5].forEach((value, index) => type('Buying', BUYING_FIRST - 1, 3 + index, value));
    await expect.poll(() => list().toBuy).toBe(274.2);
  });

  it('Stock shortens the list only where its row says so', async () => {
    const { store, type, list } = await open(buyingBook());
    await store.addSheet('Stock');
    const row = ['Skin .025', null, null, 72, 48, null, 1, 'yes'];
    row.forEach((value, index) => value !== null && type('Stock', 5, index, value));
    await expect.poll(() => store.state.sheets!.stock!.pieces).toHaveLength(1);
    expect(list().toBuy).toBe(261.7);
    type('Stock', 5, 9, 'yes');
    await expect.poll(() => list().toBuy).toBe(164.5);
  });

  it('are not laid over something else', async () => {
    const model = buyingBook();
    const { store } = await open({
      ...model,
      sheets: [...model.sheets, { name: 'Purchases', cells: [[{ value: 'mine' }]], tables: [] }],
    });
    await store.addSheet('Purchases');
    expect(store.state.message).toMatchObject({
      tone: 'failed',
      text: expect.stringContaining('holds something else') as string,
    });
  });
});

describe('words', () => {
  it('say quantities in the units that a builder counts in', () => {
    expect([
      quantityText(6912, 'area', 'in-lb'),
      quantityText(144, 'length', 'in-lb'),
      quantityText(1500, 'pieces', 'in-lb'),
      quantityText(1.25, 'weight', 'in-lb'),
    ]).toEqual(['48 ft²', '12 ft', '1,500', '1.25 lb']);
    expect([unitsText(2, 'sheet'), unitsText(1, 'lb'), unitsText(3, '100'), unitsText(4, 'each')]).toEqual([
      '2 sheets',
      '1 lb',
      '3 × 100',
      '4',
    ]);
  });

  it('say them in metric units where the workbook is metric', () => {
    const area = (1250 * 2500) / 25.4 ** 2;
    expect([
      quantityText(area, 'area', 'mm-kg'),
      quantityText(6000 / 25.4, 'length', 'mm-kg'),
      quantityText(1, 'weight', 'mm-kg'),
      gaugeText(0.8 / 25.4, 'mm-kg'),
      gaugeText(0.025, 'in-lb'),
      gaugeText(0.025, 'mm-kg'),
    ]).toEqual(['3.13 m²', '6 m', '0.454 kg', '0.8 mm', '0.025 in', '0.635 mm']);
    expect([
      sizeText(2500 / 25.4, 1250 / 25.4, sayIn('mm-kg')),
      sizeText(144, undefined, sayIn('in-lb')),
      sizeText(4.4375, 3, sayIn('in-lb')),
    ]).toEqual(['2,500 × 1,250 mm', '144 in', '4.438 × 3 in']);
  });

  it('write numbers as the place does, in groups', () => {
    expect([
      amountText(1234.5, 'USD'),
      amountText(undefined, 'USD'),
      amountText(1234.5, 'JPY'),
      quotedText(0.0455, 'USD'),
      quotedText(9, 'USD'),
    ]).toEqual(['1,234.50', '–', '1,235', '0.0455', '9.00']);
    setLocale({ language: 'en', numbers: 'de-DE' });
    expect([
      amountText(1234.5, 'EUR'),
      quantityText(7800, 'area', 'in-lb'),
      unitsText(3, '1000'),
      gaugeText(0.8 / 25.4, 'mm-kg'),
      sizeText(2500.5 / 25.4, 1250 / 25.4, sayIn('mm-kg')),
    ]).toEqual(['1.234,50', '54,2 ft²', '3 × 1.000', '0,8 mm', '2.500,5 × 1.250 mm']);
  });

  it('say how the plan counts a line, and how area or length would', () => {
    const line = (planned: Partial<PlannedLine>, hardware: ShoppingLine['hardware'] = 'sheet'): ShoppingLine =>
      ({
        hardware,
        measure: hardware === 'bar' ? 'length' : 'area',
        planned: { pieces: 2, size: undefined, byMeasure: 1.04, besides: 0, ...planned },
      }) as ShoppingLine;
    expect(planWords(line({}), 'in-lb')).toBe('2 sheets by the plan; by area with spare 1.1 would do.');
    expect(planWords(line({ pieces: 1 }, 'bar'), 'in-lb')).toBe(
      '1 bar by the plan; by length with spare it would be 1.1.',
    );
    expect(planWords(line({ byMeasure: undefined, size: { length: 144, width: 48 }, besides: 144 }), 'in-lb')).toBe(
      '2 sheets of 144 × 48 in by the plan. Plus 1 ft² for what is not in the plan.',
    );
    expect(planWords(line({ pieces: 0, byMeasure: undefined }), 'in-lb')).toBe(
      'None: what is on the shelf covers the plan.',
    );
    expect(planWords({ ...line({}), planned: undefined }, 'in-lb')).toBe('');
  });

  it('say what a line is made of', async () => {
    const { list } = await open(buyingBook({ bought: true }));
    expect(
      needWords(
        list()
          .orders.flatMap(({ lines }) => lines)
          .find(({ item }) => item === 'Skin .025')!,
        'in-lb',
      ),
    ).toBe('needs 54.2 ft², 8.1 ft² spare, bought 48 ft²');
  });
});
