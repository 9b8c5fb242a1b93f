/** Keeping a long workbook while it is edited: what is kept is of one moment, and what an edit does not touch is made once. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { Keeping } from '../../../src/hosts/bench/keeping';
import type { KeptChange, Storage } from '../../../src/hosts/bench/storage';
import { headText, pieceKeys, pieceText } from '../../../src/hosts/univer';
import { writeWorkbook } from '../../../src/xlsx';
import { openBook } from '../univer/open-book';

const ROWS = 20_000;
const rows = Array.from({ length: ROWS }, (_line, row) => [{ value: row }, { value: `row ${row}` }]);
const sheets = ['Long', 'Other'].map((name) => ({ name, tables: [], cells: rows }));
const bytes = await writeWorkbook({ names: [], styles: [], sheets });

describe('keeping a long workbook', () => {
  afterEach(() => vi.unstubAllGlobals());

  const begin = async () => {
    vi.stubGlobal('document', { visibilityState: 'visible' });
    const { engine, id, workbook, book } = await openBook(bytes);
    const kept: KeptChange[] = [];
    const storage = { keep: async (change: KeptChange) => void kept.push(change) } as unknown as Storage;
    const refused: unknown[] = [];
    const listener = { waiting: () => undefined, kept: () => undefined, refused: (why: unknown) => refused.push(why) };
    const keeping = new Keeping(engine, storage, { id, title: 'Book', unit: id }, false, listener);
    const write = (sheet: string, row: number, value: number) =>
      workbook.apply('Type', [
        { kind: 'write', range: { sheet, row, column: 0, rows: 1, columns: 1 }, cells: [[value]] },
      ]);
    const texts = () => new Map(pieceKeys(engine, id).map((key) => [key, pieceText(engine, id, key)!]));
    return { keeping, kept, write, texts, book, head: () => headText(engine, id), refused };
  };

  it('keeps all of it as it stands after edits that come while it is made', async () => {
    const { keeping, kept, write, texts, book, head } = await begin();
    await write('Long', 0, 1000);
    const done = keeping.flush();
    for (let edit = 1; edit <= 5; edit++) {
      await new Promise((resolve) => setTimeout(resolve, 3));
      await write('Long', 0, 1000 + edit);
      await write('Other', ROWS - 1, 2000 + edit);
    }
    book.getSheetByName('Other')!.insertRows(5, 1);
    await write('Other', 3, 7);
    await done;
    await keeping.flush();
    expect(kept.at(-1)!.head).toBe(head());
    const all = new Map(kept.flatMap(({ sheets: made }) => [...made]));
    const now = texts();
    expect(kept.at(-1)!.order).toEqual([...now.keys()]);
    for (const [key, text] of now) expect(all.get(key) === text, key).toBe(true);
    keeping.stop();
  });

  it('writes what an edit touches alone once all is kept', async () => {
    const { keeping, kept, write, refused } = await begin();
    await write('Long', 0, 1000);
    await keeping.flush();
    expect(kept[0]!.sheets.size).toBe(kept[0]!.order.length);
    await write('Long', 1, 5);
    await keeping.flush();
    expect([...kept[1]!.sheets.keys()]).toEqual([kept[1]!.order[1]]);
    expect(refused).toEqual([]);
    keeping.stop();
  });
});
