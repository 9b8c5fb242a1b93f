/** A workbook that is kept in texts of some rows each: what an edit makes old, and what comes back. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import {
  calculate,
  calculatorHere,
  headText,
  inTurns,
  loadKept,
  pieceKeys,
  pieceText,
  startEngine,
  UniverWorkbook,
  watchEdits,
  type Engine,
} from '../../../src/hosts/univer';
import type { WorkbookModel } from '../../../src/sheet';
import { readWorkbook, writeWorkbook } from '../../../src/xlsx';
import { openBook } from './open-book';

const ROWS = 1100;
const model: WorkbookModel = {
  names: [],
  styles: [],
  sheets: [
    {
      name: 'Long',
      tables: [],
      cells: Array.from({ length: ROWS }, (_line, row) => [
        { value: row },
        { value: null, formula: `A${row + 1}*2` },
        ...(row % 7 === 0 ? [{ value: `row ${row}` }] : []),
      ]),
    },
    { name: 'Short', tables: [], cells: [[{ value: 1 }]] },
  ],
};
const textsOf = (engine: Engine, id: string): Map<string, string> =>
  new Map(pieceKeys(engine, id).map((key) => [key, pieceText(engine, id, key)!]));

describe('a kept workbook', () => {
  it('comes back as it was, also in turns and from a sample', async () => {
    const sample = readFileSync(fileURLToPath(new URL('../../../sample-workbooks/wing.xlsx', import.meta.url)));
    for (const bytes of [await writeWorkbook(model), sample]) {
      const loaded = readWorkbook(bytes);
      const { engine, id, workbook } = await openBook(bytes);
      const texts = textsOf(engine, id);
      for (const turns of [undefined, inTurns]) {
        const again = startEngine({ calculator: calculatorHere, ...(turns ? { turns } : {}) });
        let shown = 0;
        const unit = `${id} ${turns ? 'in turns' : 'again'}`;
        const title = 'Book';
        expect(await loadKept(again, { unit, title }, headText(engine, id), texts, () => (shown += 1))).toBe(true);
        await calculate(again);
        expect(new UniverWorkbook(again, unit, 'headless', title).toModel(loaded)).toEqual(workbook.toModel(loaded));
        expect(shown).toBe(2);
      }
    }
  });

  it('has the rows written anew that an edit touches, and all of a sheet whose rows move', async () => {
    const { engine, id, workbook } = await openBook(await writeWorkbook(model));
    const before = textsOf(engine, id);
    const touched: string[] = [];
    const all: string[] = [];
    watchEdits(engine, id, (edit) => {
      touched.push(...edit.keys);
      all.push(...edit.all);
    });
    await workbook.apply('edit', [
      { kind: 'write', range: { sheet: 'Long', row: 600, column: 0, rows: 1, columns: 1 }, cells: [[5]] },
    ]);
    await workbook.settled();
    const after = textsOf(engine, id);
    const changed = [...after.keys()].filter((key) => after.get(key) !== before.get(key));
    // The result beside it is calculated when the workbook comes back: it may be old in the texts.
    expect(changed).toEqual(['sheet-1#2']);
    expect([...new Set(touched)]).toEqual(changed);
    expect(all).toEqual([]);
    engine.api.getUniverSheet(id)!.getSheetByName('Long')!.insertRowsBefore(3, 1);
    expect([...new Set(all)]).toEqual(['sheet-1']);
  });

  it('is refused where a text is damaged, and nothing of it stays', async () => {
    const { engine, id } = await openBook(await writeWorkbook(model));
    const texts = textsOf(engine, id).set('sheet-1#1', '{"250":');
    const head = headText(engine, id);
    await expect(loadKept(engine, { unit: 'damaged', title: 'Book' }, head, texts)).rejects.toThrow(SyntaxError);
    expect(engine.api.getUniverSheet('damaged')).toBeNull();
  });
});
