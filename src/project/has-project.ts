/** Whether a workbook has anything of the project in it. */
import type { Workbook } from '../sheet';
import { CASES, ENVELOPE, LOADING, WEIGHING } from './balance-forms';
import { BUYING_SHEET, PURCHASES, STOCK } from './buying-forms';
import { BUDGET, HARDWARE_FORM, JOINTS, PARTS, type SheetForm } from './forms';
import { findPrices } from './prices';
import { readTop } from './read-sheets';
import { RIVET_OPTIONS_SHEET } from './rivet-options-forms';
import { readHead } from './rows';
import { SURFACES } from './surface-forms';
import { ALLOWANCES, LOG } from './weight-forms';

const FORMS: readonly SheetForm[] = [
  PARTS,
  JOINTS,
  HARDWARE_FORM,
  BUDGET,
  LOG,
  ALLOWANCES,
  STOCK,
  PURCHASES,
  SURFACES,
  WEIGHING,
  LOADING,
  ENVELOPE,
  CASES,
];
/** Sheets of several lists, which have no one header. */
const NAMES: readonly string[] = [BUYING_SHEET, RIVET_OPTIONS_SHEET];

/**
 * True where the workbook has the price table, or a sheet with one of the project's names and its header: a sheet
 * that a person called Log for something else does not count. An airplane's sheets may have its name behind theirs.
 */
export async function hasProject(
  workbook: Pick<Workbook, 'sheets' | 'usedRange' | 'read' | 'tables'>,
): Promise<boolean> {
  const [sheets, tables] = await Promise.all([workbook.sheets(), workbook.tables()]);
  if (findPrices([], tables)) return true;
  for (const { name } of sheets) {
    const plain = name.trim().toLowerCase();
    if (NAMES.some((known) => known.toLowerCase() === plain)) return true;
    const forms = FORMS.filter(({ sheet }) => plain.startsWith(sheet.toLowerCase()));
    const top = forms.length > 0 ? await readTop(workbook, name) : undefined;
    if (top && forms.some((form) => readHead(form, top, name))) return true;
  }
  return false;
}
