/** Whether a workbook has anything of the project in it. */
import type { Cell, Workbook } from '../sheet';
import { CASES, ENVELOPE, LOADING, WEIGHING } from './balance-forms';
import { BUYING_SHEET, PURCHASES, STOCK } from './buying-forms';
import { BUDGET, HARDWARE_FORM, JOINTS, PARTS, type SheetForm } from './forms';
import { MATCHES } from './match/meanings';
import { readPartsHead } from './match/parts-lists';
import { findPrices } from './prices';
import { readTop } from './read-sheets';
import { RIVET_OPTIONS_SHEET } from './rivet-options-forms';
import { readHead } from './rows';
import { SURFACES } from './surface-forms';
import { ALLOWANCES, LOG } from './weight-forms';

const FORMS: readonly SheetForm[] = [
  PARTS,
  MATCHES,
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
    if (isProjectSheet(name, [])) return true;
    const top = formsCalled(name).length > 0 ? await readTop(workbook, name) : undefined;
    if (top && isProjectSheet(name, top)) return true;
  }
  return false;
}

const plain = (name: string): string => name.trim().toLowerCase();

const formsCalled = (name: string): SheetForm[] =>
  FORMS.filter(({ sheet }) => plain(name).startsWith(sheet.toLowerCase()));

/** True for a sheet of the project, by its name and its header. */
export const isProjectSheet = (name: string, cells: readonly (readonly Cell[])[]): boolean =>
  NAMES.some((known) => known.toLowerCase() === plain(name)) ||
  formsCalled(name).some(
    (form) => (form === (PARTS as SheetForm) ? readPartsHead(cells) : readHead(form, cells, name)) !== undefined,
  );
