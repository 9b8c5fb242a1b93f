/** Which sheets of a workbook are the project's, which look like lists of parts, and what these lack. */
import type { Cell } from '../../sheet';
import { CASES, ENVELOPE, LOADING, WEIGHING } from '../balance-forms';
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
} from '../forms';
import { MATCHES, meaningLabel, type Cells, type Means } from './meanings';
import { readPartsHead } from './parts-lists';
import { findPrices } from '../prices';
import { listed } from '../units';
import type { ProjectSheets, WantedSheets } from '../project-reader';
import { RIVET_OPTIONS_SHEET } from '../rivet-options-forms';
import { HEADER_WITHIN } from '../../core/table';
import { readHead } from '../rows';
import { sameName } from '../../core/names';
import { guessMatch, type Guess } from './guess';

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
const isProjectSheet = (name: string, cells: readonly (readonly Cell[])[]): boolean =>
  NAMES.some((known) => known.toLowerCase() === plain(name)) ||
  formsCalled(name).some(
    (form) => (form === (PARTS as SheetForm) ? readPartsHead(cells) : readHead(form, cells, name)) !== undefined,
  );

/** The guesses of those sheets that may be lists, in the workbook's order. */
export const guessLists = (sheets: readonly { readonly name: string; readonly cells: Cells }[]): Guess[] =>
  sheets.flatMap(({ name, cells }) => (isProjectSheet(name, cells) ? [] : (guessMatch(name, cells) ?? [])));

/** The same of the sheets of an open workbook that are shown. */
export const findLists = ({ sheets, values }: ProjectSheets): Guess[] =>
  guessLists(
    sheets.flatMap(({ name, visible }) => {
      const cells = visible ? values(name) : undefined;
      return cells ? [{ name, cells: sameName(name, PARTS.sheet) ? cells : cells.slice(0, HEADER_WITHIN) }] : [];
    }),
  );

/** What has to be read for that: the first rows. A sheet Parts is known by its totals, too, which may be at its foot. */
export const listTops: WantedSheets = ({ sheets }) =>
  sheets
    .filter(({ visible }) => visible)
    .map(({ name }) => ({ sheet: name, ...(sameName(name, PARTS.sheet) ? {} : { rows: HEADER_WITHIN }) }));

/** What a list of parts has; without an arm there is no balance. */
const WANTED: readonly Means[] = ['part', 'weight', 'arm'];

/** Labels of the parts list that no column is taken for. */
export const lackingIn = ({ match }: Guess): string[] =>
  WANTED.filter((means) => !match.columns.some((one) => one.means === means)).map(meaningLabel);

/** "The sheet Wing has Part, Qty and Weight each, but no column for Arm." */
export function fitSentence(guess: Guess): string {
  const has = listed(
    guess.match.columns.map(({ header }) => header),
    'and',
  );
  const lacks = lackingIn(guess);
  return `The sheet ${guess.match.sheet} has ${has}${lacks.length > 0 ? `, but no column for ${lacks.join(' or ')}` : ''}.`;
}

/** True where nothing says whether weights are of one piece or of all: a person has to. */
export const asksWeight = ({ match }: Pick<Guess, 'match'>): boolean =>
  match.columns.some(({ means, readAs }) => means === 'weight' && readAs === '');
