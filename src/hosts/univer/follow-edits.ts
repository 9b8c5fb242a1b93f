/**
 * Formulas and defined names as they stand after an edit of the workbook: what the engine asks for when rows, columns
 * and cells come, go and are moved, and when sheets and names get other names or go; and its list of formulas.
 */
import {
  isFormulaString,
  ObjectMatrix,
  RANGE_TYPE,
  type ICellData,
  type IMutationInfo,
  type IObjectMatrixPrimitiveType,
  type IRange,
  type IUndoRedoCommandInfos,
  type Nullable,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import {
  SetDefinedNameMutation,
  type IDefinedNamesService,
  type IFormulaData,
  type IFormulaDataItem,
} from '@univerjs/engine-formula';
import {
  LAST_COLUMN,
  LAST_ROW,
  moved,
  moveReferences,
  onSheet,
  withTableNames,
  withSheetNames,
  withoutSheet,
  type CellsMove,
  type LineEdit,
  type LinesMove,
} from '../../sheet/formula';
import { linesIn, linesOf, runsOf, toAddress } from './places';

/** An edit as the engine tells it; `type` is one of `KINDS`. */
export interface EngineEdit {
  readonly type: number;
  readonly unitId: string;
  readonly sheetId: string;
  readonly targetSheetId?: string;
  readonly range?: IRange;
  readonly from?: IRange;
  readonly to?: IRange;
  /** Of a sheet that is renamed: its new name. */
  readonly sheetName?: string;
  readonly definedNameId?: string;
  readonly definedName?: string;
  /** Rows of the range that a filter hides: they are not removed with the others. */
  readonly rangeFilteredRows?: readonly number[];
}

/** The engine's numbers of edits (FormulaReferenceMoveType), which it does not export. */
const KINDS = [
  'moveCells',
  'moveRows',
  'moveColumns',
  'insertRows',
  'insertColumns',
  'deleteRows',
  'deleteColumns',
  'deleteShiftLeft',
  'deleteShiftUp',
  'insertShiftDown',
  'insertShiftRight',
  'renameSheet',
  'removeSheet',
  'renameName',
] as const;

/** What a formula of a sheet becomes. */
type Follow = (formula: string, sheet: string) => string;

/**
 * The formulas that an edit changes, by the places that they have before it.
 * @param book as it stands before the edit
 * @param oldName of a defined name that is renamed: what it was
 */
export function followedFormulas(
  formulas: IFormulaData,
  book: EngineWorkbook,
  edit: EngineEdit,
  oldName?: string,
): { newFormulaData: IFormulaData } {
  const unit = edit.unitId;
  const follow = following(edit, book, oldName);
  const changed = new Map<string, ObjectMatrix<IFormulaDataItem>>();
  for (const [id, cells] of Object.entries((follow && formulas[unit]) ?? {})) {
    const sheet = { id, name: nameIn(book, id) };
    for (const { row, column, text, away } of changedFormulas(new ObjectMatrix(cells ?? {}), sheet, edit, follow!)) {
      const target = away ? edit.targetSheetId! : id;
      const onTarget = changed.get(target) ?? new ObjectMatrix<IFormulaDataItem>();
      changed.set(target, onTarget);
      onTarget.setValue(row + (away?.rows ?? 0), column + (away?.columns ?? 0), { f: `=${text}` });
    }
  }
  const data = Object.fromEntries([...changed].map(([id, cells]) => [id, cells.getMatrix()]));
  return { newFormulaData: { [unit]: data } };
}

const nameIn = (book: EngineWorkbook, id: string): string => book.getSheetBySheetId(id)?.getName() ?? '';

interface FormulaAt {
  readonly row: number;
  readonly column: number;
  readonly text: string;
  /** How far it goes where it is cut and pasted onto another sheet. */
  readonly away: ReturnType<typeof isCutAway>;
}

/**
 * Formulas of a sheet that are others after an edit. The engine knows cells that were filled as one formula and how
 * far each is from it: where one of them changes or goes elsewhere, each gets a formula of its own.
 */
function changedFormulas(
  cells: ObjectMatrix<Nullable<IFormulaDataItem>>,
  sheet: { readonly id: string; readonly name: string },
  edit: EngineEdit,
  follow: Follow,
): FormulaAt[] {
  const all: (FormulaAt & { readonly group: string | undefined; readonly isChanged: boolean })[] = [];
  const parted = new Set<string>();
  cells.forValue((row, column, item) => {
    if (!item) return;
    const before = moved(item.f.replace(/^=/, ''), item.y ?? 0, item.x ?? 0);
    const away = isCutAway(edit, sheet.id, row, column);
    const text = follow(away ? onSheet(before, sheet.name) : before, sheet.name);
    const isChanged = text !== before || away !== undefined;
    if (!isChanged && item.si === undefined) return;
    if (item.si !== undefined && (isChanged || isMoved(edit, sheet.id, row, column))) parted.add(item.si);
    all.push({ row, column, text, away, group: item.si, isChanged });
  });
  return all.filter(({ group, isChanged }) => isChanged || (group !== undefined && parted.has(group)));
}

const isInside = ({ startRow, endRow, startColumn, endColumn }: IRange, row: number, column: number): boolean =>
  !(row < startRow || row > endRow || column < startColumn || column > endColumn);

const isMoved = ({ from, sheetId }: EngineEdit, sheet: string, row: number, column: number): boolean =>
  from !== undefined && sheet === sheetId && isInside(from, row, column);

/** How far a formula goes that is cut and pasted onto another sheet. */
function isCutAway(
  edit: EngineEdit,
  sheet: string,
  row: number,
  column: number,
): { rows: number; columns: number } | undefined {
  const { from, to, targetSheetId, sheetId } = edit;
  if (KINDS[edit.type] !== 'moveCells' || !from || !to || (targetSheetId ?? sheetId) === sheetId) return undefined;
  return isMoved(edit, sheet, row, column)
    ? { rows: to.startRow - from.startRow, columns: to.startColumn - from.startColumn }
    : undefined;
}

/** What an edit makes of formulas; undefined for one that changes none. */
function following(edit: EngineEdit, book: EngineWorkbook, oldName?: string): Follow | undefined {
  const sheet = nameIn(book, edit.sheetId);
  const kind = KINDS[edit.type];
  switch (kind) {
    case undefined:
      return undefined;
    case 'renameSheet': {
      const names = new Map([[sheet.toLowerCase(), edit.sheetName ?? sheet]]);
      return (formula) => withSheetNames(formula, names);
    }
    case 'removeSheet':
      return (formula) =>
        withoutSheet(
          formula,
          sheet,
          book.getSheets().map((one) => one.getName()),
        );
    case 'renameName': {
      const { definedName } = edit;
      if (oldName === undefined || definedName === undefined || definedName === oldName) return undefined;
      const names = new Map([[oldName.toLowerCase(), definedName]]);
      return (formula) => withTableNames(formula, names);
    }
    default: {
      const steps = referenceEdits(kind, edit, sheet, nameIn(book, edit.targetSheetId ?? edit.sheetId));
      return (formula, own) => steps.reduce((text, step) => moveReferences(text, own, step), formula);
    }
  }
}

function referenceEdits(
  kind: (typeof KINDS)[number],
  edit: EngineEdit,
  sheet: string,
  target: string,
): (LineEdit | LinesMove | CellsMove)[] {
  const axis = /Rows|Down|Up/.test(kind) ? 'rows' : 'columns';
  if (edit.from && edit.to) {
    const [from, to] = [wholeRange(edit.from), wholeRange(edit.to)];
    if (kind === 'moveCells') {
      return [
        {
          kind: 'move',
          from: toAddress(sheet, from),
          to: { sheet: target, row: to.startRow, column: to.startColumn },
        },
      ];
    }
    const { at, count } = linesIn(axis, from);
    return [{ kind: 'reorder', sheet, axis, from: at, count, to: linesIn(axis, to).at }];
  }
  if (!edit.range) return [];
  const { at, count, within } = linesIn(axis, wholeRange(edit.range));
  const part = /Shift/.test(kind) ? { within } : {};
  if (kind.startsWith('insert')) return [{ kind: 'insert', sheet, axis, at, count, ...part }];
  const staying = new Set(edit.rangeFilteredRows);
  const all = [at, at + count - 1] as const;
  const going = staying.size > 0 ? runsOf(linesOf(...all).filter((line) => !staying.has(line))) : [all];
  return going
    .map(([first, last]): LineEdit => ({ kind: 'delete', sheet, axis, at: first, count: last - first + 1, ...part }))
    .reverse();
}

/** The engine leaves out where the ends of whole rows and columns are. */
function wholeRange(range: IRange): IRange {
  const isOfColumns = range.rangeType === RANGE_TYPE.COLUMN;
  const isOfRows = range.rangeType === RANGE_TYPE.ROW;
  return {
    startRow: isOfColumns ? 0 : range.startRow,
    endRow: isOfColumns ? LAST_ROW : range.endRow,
    startColumn: isOfRows ? 0 : range.startColumn,
    endColumn: isOfRows ? LAST_COLUMN : range.endColumn,
  };
}

/** The mutations by which defined names follow an edit, and which take that back. */
export function followedNames(
  service: IDefinedNamesService,
  book: EngineWorkbook,
  edit: EngineEdit,
): IUndoRedoCommandInfos {
  const unitId = edit.unitId;
  const follow = following(edit, book);
  const changes = Object.values(service.getDefinedNameMap(unitId) ?? {}).flatMap((name) => {
    const text = name.formulaOrRefString;
    const isFormula = text.startsWith('=');
    // A name's references name their sheets.
    const now = follow?.(isFormula ? text.slice(1) : text, '') ?? text;
    const formulaOrRefString = isFormula && follow ? `=${now}` : now;
    return formulaOrRefString === text ? [] : [{ before: name, after: { ...name, formulaOrRefString } }];
  });
  const setting = (params: object): IMutationInfo => ({ id: SetDefinedNameMutation.id, params: { unitId, ...params } });
  return {
    redos: changes.map(({ after }) => setting(after)),
    undos: changes.map(({ before }) => setting(before)),
  };
}

/*
 * The engine's list of formulas, which it goes through with every edit so that formulas which were filled down follow
 * when the first of them goes. On a sheet without such formulas only the edited cells are looked at: going through all
 * cells of a long list took longer than everything else that an edit does on the page.
 */

type Cells = ObjectMatrix<Nullable<ICellData>>;
export type EditedCells = IObjectMatrixPrimitiveType<Nullable<ICellData>>;

/** Sheets' cells that are known to hold formulas which were filled down, or none. */
let known = new WeakMap<Cells, boolean>();

/** Cells may have come from another sheet. */
export const forgetFilledDown = (): void => {
  known = new WeakMap<Cells, boolean>();
};

/** True where formulas of the sheet name a first one, or will after the edit. */
export function hasFilledDown(cells: Cells, edited: EditedCells): boolean {
  const has = (known.get(cells) ?? namesFirst(cells)) || namesFirst(new ObjectMatrix(edited));
  known.set(cells, has);
  return has;
}

function namesFirst(cells: Cells): boolean {
  let has = false;
  cells.forValue((_row, _column, data) => {
    has ||= Boolean(data?.si);
    return !has;
  });
  return has;
}

/** What an edit does to the list: formulas that come, and null for those that go. `cells` are those before it. */
export function formulasOfEdit(cells: Cells, edited: EditedCells): IObjectMatrixPrimitiveType<IFormulaDataItem | null> {
  const changes = new ObjectMatrix<IFormulaDataItem | null>();
  new ObjectMatrix(edited).forValue((row, column, data) => {
    if (isFormulaString(data?.f)) changes.setValue(row, column, { f: data!.f! });
    else if (isFormulaString(cells.getValue(row, column)?.f)) changes.setValue(row, column, null);
  });
  return changes.getMatrix();
}
