/** Whether a workbook has anything of the project in it. */
import { HEADER_WITHIN } from '../core/table';
import type { Cell } from '../sheet';
import { CASES, ENVELOPE, LOADING, WEIGHING } from './balance-forms';
import {
  ALLOWANCES,
  BUDGET,
  BUYING_SHEET,
  HARDWARE_FORM,
  JOINTS,
  LOG,
  PARTS,
  PURCHASES,
  STOCK,
  SURFACES,
  type SheetForm,
} from './forms';
import { MATCHES } from './match/meanings';
import { readPartsHead } from './match/parts-lists';
import { findPrices } from './prices';
import type { ProjectSheets, WantedSheets } from './project-reader';
import { RIVET_OPTIONS_SHEET } from './rivet-options-forms';
import { readHead } from './rows';

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
export const hasProject = ({ names, tables, values }: ProjectSheets): boolean =>
  findPrices([], tables) !== undefined || names.some((name) => isProjectSheet(name, values(name) ?? []));

/** What has to be read to tell: the rows of sheets with those names in which a header may stand. */
export const projectTops: WantedSheets = ({ names }) =>
  names.filter((name) => formsCalled(name).length > 0).map((sheet) => ({ sheet, rows: HEADER_WITHIN }));

const plain = (name: string): string => name.trim().toLowerCase();

const formsCalled = (name: string): SheetForm[] =>
  FORMS.filter(({ sheet }) => plain(name).startsWith(sheet.toLowerCase()));

/** True for a sheet of the project, by its name and its header. */
export const isProjectSheet = (name: string, cells: readonly (readonly Cell[])[]): boolean =>
  NAMES.some((known) => known.toLowerCase() === plain(name)) ||
  formsCalled(name).some(
    (form) => (form === (PARTS as SheetForm) ? readPartsHead(cells) : readHead(form, cells, name)) !== undefined,
  );
