/** A file that is opened in pieces, against the same file opened in one go. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import {
  calculate,
  calculatorHere,
  inTurns,
  loadWorkbook,
  openFile,
  startEngine,
  UniverWorkbook,
  type EngineOptions,
} from '../../../src/hosts/univer';
import type { WorkbookModel } from '../../../src/sheet';
import { readWorkbook, writeWorkbook, XlsxError } from '../../../src/xlsx';
import { calculatorLate } from './late-calculator';

const folder = fileURLToPath(new URL('../../../sample-workbooks/', import.meta.url));
const samples = readdirSync(folder).filter((name) => name.endsWith('.xlsx'));
const late = (): EngineOptions => ({ calculator: calculatorLate(() => 0), turns: inTurns });
let opened = 0;
const title = 'Book';

async function inPieces(bytes: Uint8Array, options: EngineOptions): Promise<UniverWorkbook> {
  const engine = startEngine(options);
  const id = `pieces ${(opened += 1)}`;
  await openFile(engine, bytes, { id, title });
  const workbook = new UniverWorkbook(engine, id, 'headless', title);
  await calculate(engine);
  return workbook;
}

async function inOneGo(bytes: Uint8Array): Promise<UniverWorkbook> {
  const engine = startEngine({ calculator: calculatorHere });
  const id = `whole ${(opened += 1)}`;
  loadWorkbook(engine, readWorkbook(bytes), id, title);
  const workbook = new UniverWorkbook(engine, id, 'headless', title);
  await calculate(engine);
  return workbook;
}

describe('a file that is opened in pieces', () => {
  it.each(samples)('is the same as in one go: %s', { timeout: 120_000 }, async (name) => {
    const bytes = readFileSync(`${folder}${name}`);
    const loaded = readWorkbook(bytes);
    const whole = await inOneGo(bytes);
    const wanted = whole.toModel(loaded);
    for (const options of [{ calculator: calculatorHere }, late()]) {
      const workbook = await inPieces(bytes, options);
      expect(workbook.toModel(loaded)).toEqual(wanted);
      expect(await workbook.notRecalculated()).toEqual(await whole.notRecalculated());
    }
  });

  it('keeps what formulas that are not known gave, and what they spilled', async () => {
    const model: WorkbookModel = {
      names: [],
      styles: [],
      sheets: [
        {
          name: 'Parts',
          tables: [],
          cells: [
            [{ value: 3, formula: 'FOREIGN.SORT(C1:C2)', spill: { rows: 2, columns: 1 } }, undefined, { value: 4 }],
            [{ value: 4, spilled: true }, undefined, { value: 3 }],
            [{ value: 7, formula: 'SUM(A1:A2)' }],
            [{ value: null, formula: 'FOREIGN.THING(C1)' }],
          ],
        },
      ],
    };
    const bytes = await writeWorkbook(model);
    const whole = await inOneGo(bytes);
    for (const options of [{ calculator: calculatorHere }, late()]) {
      const workbook = await inPieces(bytes, options);
      expect(await workbook.read({ sheet: 'Parts', row: 0, column: 0, rows: 4, columns: 1 })).toEqual([
        [3],
        [4],
        [7],
        [null],
      ]);
      expect(await workbook.notRecalculated()).toEqual(await whole.notRecalculated());
      expect(await workbook.notRecalculated()).toHaveLength(3);
    }
  });

  it('has days counted from 1904 as they were', async () => {
    const bytes = await writeWorkbook({
      names: [],
      styles: [{}, { numberFormat: 'yyyy-mm-dd' }],
      dates1904: true,
      sheets: [
        {
          name: 'Log',
          tables: [],
          cells: [
            [
              { value: 46_000, style: 1 },
              { value: null, formula: 'A1+30', style: 1 },
              { value: null, formula: 'YEAR(A1)' },
            ],
          ],
        },
      ],
    });
    const workbook = await inPieces(bytes, late());
    expect(await workbook.read({ sheet: 'Log', row: 0, column: 0, rows: 1, columns: 3 })).toEqual([
      [46_000, 46_030, 2025],
    ]);
  });

  it('takes no edits while rows are still to come', async () => {
    const bytes = readFileSync(`${folder}${samples[0]!}`);
    const engine = startEngine({ calculator: calculatorLate(() => 5), turns: inTurns });
    const id = `pieces ${(opened += 1)}`;
    let edited: boolean | undefined;
    await openFile(engine, bytes, { id, title }, () => {
      edited ??= engine.api.getUniverSheet(id) !== null && put(engine, id);
    });
    expect(edited).toBe(false);
    expect(put(engine, id)).toBe(true);
  });

  describe('and is large', () => {
    const large = (): Promise<Uint8Array> =>
      writeWorkbook({
        names: [],
        styles: [],
        sheets: [
          {
            name: 'List',
            tables: [],
            cells: Array.from({ length: 40_000 }, (_, row) => [
              { value: `Part ${row} with a name` },
              { value: row },
              { value: 2 * row, formula: `B${row + 1}*2`, plain: true },
            ]),
          },
        ],
      });
    const top = (engine: ReturnType<typeof startEngine>, id: string): unknown[] =>
      engine.api.getUniverSheet(id)!.getSheets()[0]!.getRange(1, 0, 1, 3).getValues()[0]!;

    it('shows its first rows as a workbook that takes no edits and goes', { timeout: 120_000 }, async () => {
      const engine = startEngine(late());
      const id = `pieces ${(opened += 1)}`;
      const seen: unknown[] = [];
      const other = `pieces ${(opened += 1)}`;
      await openFile(engine, readFileSync(`${folder}${samples[0]!}`), { id: other, title });
      const open = new UniverWorkbook(engine, other, 'headless', title);
      await open.select({ sheet: (await open.sheets())[0]!.name, row: 2, column: 1, rows: 1, columns: 1 });
      expect(await open.selection()).toMatchObject({ row: 2, column: 1 });
      const selected: Promise<unknown>[] = [];
      await openFile(engine, await large(), { id, title }, (shown) => {
        selected.push(open.selection());
        seen.push([shown, top(engine, shown), engine.api.getActiveWorkbook()!.getId()]);
        if (shown !== id) expect(put(engine, shown)).toBe(false);
      });
      const row = ['Part 1 with a name', 1, 2];
      expect(seen).toEqual([
        [`${id} first`, row, `${id} first`],
        [id, row, id],
        [id, row, id],
      ]);
      // Nothing is selected in a workbook that is not shown: what is put where one clicks would go to it.
      expect(await Promise.all(selected)).toEqual([undefined, undefined, undefined]);
      expect(engine.api.getUniverSheet(`${id} first`)).toBeNull();
      expect(put(engine, id)).toBe(true);
      const workbook = new UniverWorkbook(engine, id, 'headless', title);
      await calculate(engine);
      expect(await workbook.read({ sheet: 'List', row: 39_999, column: 2, rows: 1, columns: 1 })).toEqual([[79_998]]);
    });

    it('is taken back where it turns out to be damaged, and what was open is shown again', async () => {
      const bytes = await large();
      // Within the packed cells, behind those of the first rows.
      bytes[Math.floor(bytes.length / 2)]! ^= 0xff;
      const engine = startEngine(late());
      const before = `pieces ${(opened += 1)}`;
      await openFile(engine, readFileSync(`${folder}${samples[0]!}`), { id: before, title });
      const id = `pieces ${(opened += 1)}`;
      const shown: string[] = [];
      await expect(openFile(engine, bytes, { id, title }, (one) => shown.push(one))).rejects.toThrow(XlsxError);
      expect(shown).toEqual([`${id} first`, before]);
      for (const one of [id, `${id} first`]) expect(engine.api.getUniverSheet(one)).toBeNull();
      expect(engine.api.getActiveWorkbook()!.getId()).toBe(before);
      expect(put(engine, before)).toBe(true);
    });
  });

  it('is refused where it cannot be read, and nothing of it stays', async () => {
    const engine = startEngine(late());
    await expect(openFile(engine, new Uint8Array([1, 2, 3]), { id: 'broken', title })).rejects.toThrow(XlsxError);
    expect(engine.api.getUniverSheet('broken')).toBeNull();
  });
});

/** True where a value could be put into the first cell. */
function put(engine: ReturnType<typeof startEngine>, id: string): boolean {
  const cell = engine.api.getUniverSheet(id)!.getSheets()[0]!.getRange(40, 3);
  cell.setValue(17);
  return cell.getValue() === 17;
}
