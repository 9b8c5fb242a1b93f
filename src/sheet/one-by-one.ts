/** Outline and cells of several sheets for a host that answers each question at once: one question after the other. */
import type { WorkbookOutline, SheetContent, SheetRequest, Workbook } from './port';

type Readable = Pick<Workbook, 'usedRange' | 'read'>;

export async function askOneByOne(
  workbook: Readable & Pick<Workbook, 'sheets' | 'tables'>,
  small: readonly string[] = [],
): Promise<WorkbookOutline> {
  const [sheets, tables] = await Promise.all([workbook.sheets(), workbook.tables()]);
  const cells: WorkbookOutline['cells'][number][] = [];
  for (const name of small) {
    const there = sheets.find((sheet) => sheet.name.toLowerCase() === name.toLowerCase());
    const used = there && (await workbook.usedRange(there.name));
    cells.push(used && (await workbook.read(used)));
  }
  return { sheets, tables, cells };
}

export async function readOneByOne(
  workbook: Readable & Pick<Workbook, 'readFormulas'>,
  requests: readonly SheetRequest[],
): Promise<(SheetContent | undefined)[]> {
  const all: (SheetContent | undefined)[] = [];
  for (const { sheet, rows = Infinity, formulas } of requests) {
    const used = await workbook.usedRange(sheet);
    const range = used && { ...used, rows: Math.min(rows, used.rows) };
    all.push(
      range && {
        values: await workbook.read(range),
        ...(formulas ? { formulas: await workbook.readFormulas(range) } : {}),
      },
    );
  }
  return all;
}
