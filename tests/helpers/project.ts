/** The project of a test's workbook: through the port, or of cells that the test writes down. */
import { cellsIn, ProjectReader, wholeProject, type ProjectSheets, type WantedSheets } from '../../src/project';
import { askOneByOne, readOneByOne, type Cell, type Workbook } from '../../src/sheet';

/** The project's sheets as the workbook has them now. */
export function readProject(workbook: Workbook, wanted: WantedSheets = wholeProject): Promise<ProjectSheets> {
  const reader = ProjectReader.over(workbook);
  reader.touch();
  return reader.read(wanted);
}

/** A workbook that holds cells and is only read; `change` tells of a change of a sheet. */
export function cellsWorkbook(sheets: Record<string, Cell[][]>): {
  readonly workbook: Workbook;
  readonly asked: string[];
  change(sheet: string): void;
} {
  const asked: string[] = [];
  const listeners = new Set<Parameters<Workbook['onChange']>[0]>();
  const port: Pick<
    Workbook,
    | 'sheets'
    | 'tables'
    | 'usedRange'
    | 'read'
    | 'readFormulas'
    | 'outline'
    | 'readSheets'
    | 'onChange'
    | 'notRecalculated'
  > = {
    sheets: async () => Object.keys(sheets).map((name) => ({ name, visible: true, protected: false })),
    tables: async () => [],
    usedRange: async (sheet) => {
      const cells = sheets[sheet] ?? [];
      const columns = Math.max(0, ...cells.map((line) => line.length));
      return columns === 0 ? undefined : { sheet, row: 0, column: 0, rows: cells.length, columns };
    },
    read: async (range) => {
      asked.push(range.sheet);
      return cellsIn(sheets[range.sheet]!, range);
    },
    readFormulas: async ({ rows, columns }) =>
      Array.from({ length: rows }, () => Array.from({ length: columns }, () => null)),
    outline: (small) => askOneByOne(port, small),
    readSheets: (requests) => readOneByOne(port, requests),
    onChange: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    notRecalculated: async () => [],
  };
  return {
    workbook: port as Workbook,
    asked,
    change: (sheet) => listeners.forEach((listener) => listener({ sheets: [sheet], by: 'user' })),
  };
}
