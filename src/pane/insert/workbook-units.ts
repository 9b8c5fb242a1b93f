import type { UnitSystem } from '../../functions';
import { readProjectSheets, type Workbook } from '../../workbook';

/** Rows in which the labels of a sheet stand at the latest: they tell its units, the list below them does not. */
const HEAD_ROWS = 40;

/** The system of units of the project's sheets; inch-pound where none names a unit. */
export async function workbookUnits(workbook: Workbook): Promise<UnitSystem> {
  const { units } = await readProjectSheets({
    sheets: () => workbook.sheets(),
    read: (range) => workbook.read(range),
    usedRange: async (sheet) => {
      const used = await workbook.usedRange(sheet);
      return used && { ...used, rows: Math.min(used.rows, HEAD_ROWS) };
    },
  });
  return units;
}
