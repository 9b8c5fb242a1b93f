/** Conditional formats that other writers put into a file, as cells look by them: held against LibreOffice's own page of the sheet. */
import { describe, expect, it } from 'vitest';
import { IUniverInstanceService, UniverInstanceType, type Workbook } from '@univerjs/core';
import { calculate, loadWorkbook, calculatorHere, startEngine, UniverWorkbook } from '../../../../src/hosts/univer';
import { ConditionalLooks, valuesOf } from '../../../../src/hosts/univer/extras/conditional-looks';
import { withoutCells } from '../../../../src/xlsx/extras/without-cells';
import { FileExtras } from '../../../../src/hosts/univer/extras/file-extras';
import { cellName } from '../../../../src/sheet';
import { readWorkbook } from '../../../../src/xlsx';
import { convertedByLibreOffice } from '../../../helpers/libreoffice';
import { python, soffice } from '../../../helpers/programs';
import { made } from '../../../xlsx/extras/made';
import { changedParts, partOf } from '../../../xlsx/parts';

const withOpenpyxl = python('openpyxl');
const withXlsxwriter = python('xlsxwriter');
const office = soffice();
let opened = 0;

async function open(bytes: Uint8Array) {
  const engine = startEngine({ calculator: calculatorHere });
  const id = `conditions ${(opened += 1)}`;
  loadWorkbook(engine, readWorkbook(bytes), id, 'Book');
  await calculate(engine);
  const workbook = new UniverWorkbook(engine, id, 'headless', 'Book');
  const book = engine.injector.get(IUniverInstanceService).getUnit<Workbook>(id, UniverInstanceType.UNIVER_SHEET)!;
  const looks = new ConditionalLooks(valuesOf(engine, book));
  const take = (): void =>
    looks.take(book.getSheets().map((sheet) => [sheet.getSheetId(), extras.on(sheet.getSheetId())?.conditions ?? []]));
  const extras = new FileExtras(engine, book, withoutCells(bytes), take);
  take();
  engine.calculation.onDone(() => looks.recalculated());
  const sheet = book.getSheetBySheetName('Parts')!.getSheetId();
  return { engine, id, workbook, at: (row: number, column: number) => looks.at(sheet, row, column) };
}

/** Fills of the cells of a sheet as LibreOffice shows them, row by row. */
function fillsByLibreOffice(bytes: Uint8Array): (string | undefined)[][] {
  const [html] = convertedByLibreOffice(office!, [bytes], { to: 'html' });
  const rows = html!.toString('utf8').match(/<tr>[^]*?<\/tr>/g) ?? [];
  return rows.map((row) =>
    [...row.matchAll(/<td\b([^>]*)>/g)].map(([, attributes]) =>
      /bgcolor="(#\w+)"/.exec(attributes!)?.[1]?.toLowerCase(),
    ),
  );
}

describe.skipIf(!withOpenpyxl)('conditional formats by openpyxl', () => {
  const bytes = made(withOpenpyxl, 'openpyxl-conditions');

  it.skipIf(!office)('fill the cells that LibreOffice fills', async () => {
    const { at } = await open(bytes);
    const theirs = fillsByLibreOffice(bytes);
    expect(theirs.flat().filter(Boolean).length).toBeGreaterThan(100);
    const differences = theirs.flatMap((line, row) =>
      line.flatMap((fill, column) => {
        const own = at(row, column)?.fill;
        return own === fill ? [] : [`${cellName(row, column)}: ${String(own)}, LibreOffice ${String(fill)}`];
      }),
    );
    // Texts that differ in case alone are duplicates here, as texts compare everywhere in a spreadsheet.
    const inCase = ['X3', 'X5', 'X7', 'X11'].map((cell) => `${cell}: #ffc7ce, LibreOffice undefined`);
    expect(differences).toEqual(inCase);
  });

  it('are looked at by priority, and end where one says so (ECMA-376 part 1, 18.3.1.10)', async () => {
    const { at } = await open(bytes);
    // Column Z: above 10 is green and ends it, above 5 is red and bold.
    const column = 25;
    const look = [0, 1, 2, 6, 10].map((row) => at(row, column));
    expect(look).toEqual([
      undefined,
      { fill: '#c6efce' },
      { fill: '#ffc7ce', bold: true },
      { fill: '#c6efce' },
      { fill: '#c6efce' },
    ]);
  });

  it('follow values that are typed and rows that come, and what is saved', async () => {
    const { at, workbook, engine, id } = await open(bytes);
    // Column A: below 7.
    expect([0, 1].map((row) => at(row, 0)?.fill)).toEqual(['#ffc7ce', undefined]);
    await workbook.apply('type', [
      { kind: 'write', range: { sheet: 'Parts', row: 1, column: 0, rows: 1, columns: 1 }, cells: [[3]] },
    ]);
    await workbook.settled();
    expect(at(1, 0)?.fill).toBe('#ffc7ce');
    // Column F: greater than $A$2, which is 3 now and stands in A4 then.
    engine.api.getUniverSheet(id)!.getSheetByName('Parts')!.insertRowsBefore(0, 2);
    await workbook.settled();
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect([2, 3, 4, 5].map((row) => at(row, 0)?.fill)).toEqual(['#ffc7ce', '#ffc7ce', undefined, undefined]);
    expect([0, 1, 2, 6, 7].map((row) => at(row, 5)?.fill)).toEqual([
      undefined,
      undefined,
      '#ffc7ce',
      undefined,
      undefined,
    ]);
  });

  it('stand in the saved file as they came', async () => {
    const { workbook } = await open(bytes);
    const saved = workbook.saved(bytes);
    // The values of formulas, which the writer left out, and nothing else.
    expect(changedParts(bytes, saved)).toEqual(['xl/worksheets/sheet1.xml']);
    const rules = (file: Uint8Array) =>
      partOf(file, 'xl/worksheets/sheet1.xml').match(/<conditionalFormatting.*<\/conditionalFormatting>/)![0];
    expect(rules(saved)).toBe(rules(bytes));
  });
});

describe.skipIf(!withXlsxwriter)('scales by XlsxWriter', () => {
  const bytes = made(withXlsxwriter, 'xlsxwriter-conditions');
  const column = async (index: number) => {
    const { at } = await open(bytes);
    return [0, 1, 2, 3, 4].map((row) => at(row, index));
  };

  it('of colours are mixed in proportion between the points (18.3.1.16)', async () => {
    expect((await column(0)).map((look) => look?.fill)).toEqual([
      '#ffffff',
      '#ffbfbf',
      '#ff8080',
      '#ff4040',
      '#ff0000',
    ]);
    expect((await column(1)).map((look) => look?.fill)).toEqual([
      '#ff0000',
      '#ff8000',
      '#ffff00',
      '#80ff00',
      '#00ff00',
    ]);
  });

  it('of bars take 10 to 90 percent of the cell, or all of it where an extension says so (18.3.1.28)', async () => {
    expect((await column(2)).map((look) => look?.bar?.to)).toEqual([0.1, 0.3, 0.5, 0.7, 0.9]);
    expect((await column(3)).map((look) => look?.bar?.to)).toEqual([0, 0.25, 0.5, 0.75, 1]);
    expect((await column(6)).map((look) => look?.bar && [look.bar.from, look.bar.to, look.bar.color])).toEqual([
      [0, 0.5, '#ff0000'],
      [0.25, 0.5, '#ff0000'],
      [0.5, 0.5, '#63c384'],
      [0.5, 1, '#63c384'],
      undefined,
    ]);
  });

  it('of signs take thirds by default (18.3.1.49)', async () => {
    expect((await column(4)).map((look) => look?.icon?.sign)).toEqual(['▼', '▼', '▶', '▲', '▲']);
  });

  it('and formulas reach over several ranges and to other sheets', async () => {
    expect((await column(5)).map((look) => look && [look.fill, look.color, look.bold])).toEqual([
      undefined,
      ['#ffeedd', '#9c0006', true],
      undefined,
      ['#ffeedd', '#9c0006', true],
      ['#ffeedd', '#9c0006', true],
    ]);
  });
});

it('conditions that take long are looked at in turns, and cells look meanwhile as they did', async () => {
  let limit = 5;
  let asked = 0;
  const slowly = (row: number): boolean => {
    for (const end = performance.now() + 20; performance.now() < end;);
    return row >= limit;
  };
  const looks = new ConditionalLooks(
    { of: () => () => 1, given: (_written, [row]) => slowly(row), size: () => ({ rows: 10, columns: 1 }) },
    () => (asked += 1),
  );
  const areas = [{ sheet: 'Parts', row: 0, column: 0, rows: 10, columns: 1 }];
  const rule = {
    areas,
    base: { row: 0, column: 0 },
    stops: false,
    condition: { type: 'formula', formula: 'slow' },
    look: { bold: true },
  } as const;
  looks.take([['Parts', [rule]]]);
  const bold = (): boolean[] => Array.from({ length: 10 }, (_row, row) => looks.at('Parts', row, 0)?.bold === true);
  const first = bold();
  // Those behind the first turn are not known yet.
  expect(first.at(-1)).toBe(false);
  for (let turns = 0; turns < 10; turns++) {
    await expect.poll(() => asked).toBeGreaterThan(turns);
    bold();
    if (bold().filter(Boolean).length === 5) break;
  }
  expect(bold()).toEqual([0, 0, 0, 0, 0, 1, 1, 1, 1, 1].map(Boolean));
  limit = 10;
  looks.recalculated();
  expect(bold().at(-1)).toBe(true);
});
