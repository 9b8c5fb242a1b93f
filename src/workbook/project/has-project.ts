/** Whether a workbook has anything of the project in it. */
import type { Workbook } from '../port';
import { CASES, ENVELOPE, LOADING, WEIGHING } from './balance-forms';
import { BUYING_SHEET, PURCHASES, STOCK } from './buying-forms';
import { BUDGET, JOINTS, PARTS, type SheetForm } from './forms';
import { PRICE_TABLE } from './new/price-list';
import { RIVET_OPTIONS_SHEET } from './rivet-options-forms';
import { readForm } from './rows';
import { SURFACES } from './surface-forms';
import { ALLOWANCES, LOG } from './weight-forms';

const FORMS: readonly SheetForm[] = [PARTS, JOINTS, BUDGET, LOG, ALLOWANCES, STOCK, PURCHASES, SURFACES, WEIGHING, LOADING, ENVELOPE, CASES];
/** Sheets of several lists, which have no one header. */
const NAMES: readonly string[] = [BUYING_SHEET, RIVET_OPTIONS_SHEET];
/** Rows in which a header is looked for. */
const TOP = 40;

/**
 * True where the workbook has the price table, or a sheet with one of the project's names and its header: a sheet
 * that a person called Log for something else does not count. An airplane's sheets may have its name behind theirs.
 */
export async function hasProject(workbook: Pick<Workbook, 'sheets' | 'usedRange' | 'read' | 'tables'>): Promise<boolean> {
  const [sheets, tables] = await Promise.all([workbook.sheets(), workbook.tables()]);
  if (tables.some(({ name }) => name.toLowerCase() === PRICE_TABLE.toLowerCase())) return true;
  for (const { name } of sheets) {
    const plain = name.trim().toLowerCase();
    if (NAMES.some((known) => known.toLowerCase() === plain)) return true;
    const forms = FORMS.filter(({ sheet }) => plain.startsWith(sheet.toLowerCase()));
    const used = forms.length > 0 ? await workbook.usedRange(name) : undefined;
    if (!used) continue;
    const top = await workbook.read({ ...used, rows: Math.min(TOP, used.rows) });
    if (forms.some((form) => readForm(form, top, name))) return true;
  }
  return false;
}
