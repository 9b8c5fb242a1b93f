/**
 * Every reach into what the embedded engine keeps to itself. Its version is pinned, because these members can change
 * with any version; every start checks that they are there, and stops with one sentence where one is not.
 */
import {
  getNumfmtParseValueFilter,
  isRealNum,
  LocalUndoRedoService,
  UniverInstanceType,
  type ICommandService,
  type Injector,
  type IUndoRedoItem,
  type IUniverInstanceService,
  type Univer,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import {
  ActiveDirtyManagerService,
  FormulaDataModel,
  IActiveDirtyManagerService,
  LexerTreeBuilder,
  UniverFormulaEnginePlugin,
  type IDefinedNamesService,
  type IFormulaData,
} from '@univerjs/engine-formula';
import { SheetInterceptorService } from '@univerjs/sheets';
import { UpdateDefinedNameController, UpdateFormulaController } from '@univerjs/sheets-formula';
import { memoized } from '../../core/memoized';
import {
  followedFormulas,
  followedNames,
  formulasOfEdit,
  hasFilledDown,
  type EditedCells,
  type EngineEdit,
} from './follow-edits';
import { FormulaReader } from './formula-reader';

/** The version of all of the engine's packages that these members were looked up in. @internal */
export const ENGINE_VERSION = '0.25.1';

/** What the engine registers its services in. */
export const injectorOf = (univer: Univer): Injector => univer.__getInjector();

/**
 * The engine's formulas without its calculation: it is registered as for a page whose calculation runs elsewhere, so
 * that no interpreter is ever made, and its lexer is ours. What would start its calculation hears of no edit.
 */
export class FormulaPlugin extends UniverFormulaEnginePlugin {
  override onStarting(): void {
    super.onStarting();
    this._injector.replace([LexerTreeBuilder, { useClass: FormulaReader }]);
    this._injector.replace([IActiveDirtyManagerService, { useClass: NothingIsDirty }]);
  }
}

/** As the engine has them: two are replaced below, and have to have been there. */
const MOVERS = { ...methodsOf(UpdateFormulaController), ...methodsOf(UpdateDefinedNameController) };

/**
 * The engine's own arithmetic of references that follow rows, columns, cells and names is never used: what it asks for
 * formulas and names, the one mover of references answers.
 */
Object.assign(UpdateFormulaController.prototype, {
  _getFormulaReferenceMoveInfo(
    this: {
      readonly _definedNamesService: IDefinedNamesService;
      readonly _univerInstanceService: IUniverInstanceService;
    },
    formulas: IFormulaData,
    _sheets: unknown,
    edit: EngineEdit,
  ) {
    const book = this._univerInstanceService.getUnit<EngineWorkbook>(edit.unitId, UniverInstanceType.UNIVER_SHEET);
    if (!book) return { newFormulaData: {} };
    const id = edit.definedNameId;
    const name = id === undefined ? undefined : this._definedNamesService.getValueById(edit.unitId, id)?.name;
    return followedFormulas(formulas, book, edit, name);
  },
});
Object.assign(UpdateDefinedNameController.prototype, {
  _getUpdateDefinedNameMutations(
    this: { readonly _definedNamesService: IDefinedNamesService },
    book: EngineWorkbook,
    edit: EngineEdit,
  ) {
    return followedNames(this._definedNamesService, book, edit);
  },
});

/** As the engine has them, which list the formulas of every open workbook first. */
const TOLD_OF_SHEETS = ['_handleWorkbookDisposed', '_handleInsertSheetMutation'] as const;

/**
 * Where a workbook or a sheet comes or goes, the engine tells its calculation of all formulas: half a second beside
 * 700,000, and there is no calculation. It is handed a list without any, and does the rest.
 */
Object.assign(
  UpdateFormulaController.prototype,
  Object.fromEntries(
    TOLD_OF_SHEETS.map((name) => [
      name,
      function (this: { readonly _formulaDataModel: FormulaDataModel }, ...given: unknown[]) {
        const none = Object.create(this._formulaDataModel, { getFormulaData: { value: () => ({}) } }) as unknown;
        const own = Object.create(this, { _formulaDataModel: { value: none } }) as unknown;
        return (MOVERS[name] as (...given: unknown[]) => unknown).apply(own, given);
      },
    ]),
  ),
);

/** As the engine has it, for sheets with formulas that were filled down. */
const { updateFormulaData } = methodsOf(FormulaDataModel) as Pick<FormulaDataModel, 'updateFormulaData'>;

Object.assign(FormulaDataModel.prototype, {
  updateFormulaData(this: FormulaDataModel, unit: string, sheet: string, edited: EditedCells) {
    const { _univerInstanceService: units } = this as unknown as {
      readonly _univerInstanceService: IUniverInstanceService;
    };
    const book = units.getUnit<EngineWorkbook>(unit, UniverInstanceType.UNIVER_SHEET);
    const cells = book?.getSheetBySheetId(sheet)?.getCellMatrix();
    return cells && !hasFilledDown(cells, edited)
      ? formulasOfEdit(cells, edited)
      : updateFormulaData.call(this, unit, sheet, edited);
  },
});

/** What the engine asks before it draws a cell. */
interface CellInterceptor {
  readonly handler: (
    cell: unknown,
    place: { readonly rawData?: { readonly v?: unknown } },
    next: (cell: unknown) => unknown,
  ) => unknown;
}

/** The one that marks texts that could be numbers; it has no name of its own. @internal */
export const MARKS_TEXT_NUMBERS = 'disableForceStringMark';

/** As the engine has it, for all other questions. */
const { intercept } = methodsOf(SheetInterceptorService) as {
  readonly intercept: (point: unknown, interceptor: CellInterceptor) => unknown;
};

/** It reads every text in view as a number and as a date, several times a frame: half of what a frame takes. Here once. */
Object.assign(SheetInterceptorService.prototype, {
  intercept(this: SheetInterceptorService, point: unknown, interceptor: CellInterceptor) {
    const { handler } = interceptor;
    if (!handler.toString().includes(MARKS_TEXT_NUMBERS)) return intercept.call(this, point, interceptor);
    return intercept.call(this, point, {
      ...interceptor,
      handler: (cell, place, next) => (couldBeNumber(place.rawData?.v) ? handler(cell, place, next) : next(cell)),
    });
  },
});

const MOST_TEXTS = 20_000;
const readAsNumber = memoized(
  (text: string) => isRealNum(text) || getNumfmtParseValueFilter(text) !== null,
  MOST_TEXTS,
);
const couldBeNumber = (value: unknown): boolean => typeof value !== 'string' || readAsNumber(value);

/** The plugin's setting for a page whose calculation runs elsewhere. */
export const NO_CALCULATION = { notExecuteFormula: true } as const;

class NothingIsDirty extends ActiveDirtyManagerService {
  override get(): undefined {
    return undefined;
  }
}

/** The engine's stacks of undo and redo. */
export class UndoStacks extends LocalUndoRedoService {
  protected get commands(): ICommandService {
    return this._commandService;
  }

  protected undoStack(unit: string): IUndoRedoItem[] {
    return this._getUndoStack(unit, true);
  }

  protected redoStack(unit: string): IUndoRedoItem[] {
    return this._getRedoStack(unit, true);
  }

  protected tellStatus(): void {
    this._updateStatus();
  }
}

/** Commands that act on the active sheet alone are shown this one while `work` starts, with nothing changed on the screen. */
export function withActiveSheet<T>(workbook: EngineWorkbook, sheet: Worksheet, work: () => T): T {
  Object.defineProperty(workbook, 'getActiveSheet', { value: () => sheet, configurable: true });
  try {
    return work();
  } finally {
    delete (workbook as { getActiveSheet?: unknown }).getActiveSheet;
  }
}

/** The engine's own methods of a class, as they are before any of them is replaced. */
function methodsOf({ prototype }: { readonly prototype: object }): Record<string, unknown> {
  return Object.fromEntries(
    Object.getOwnPropertyNames(prototype).map((name) => [name, (prototype as Record<string, unknown>)[name]]),
  );
}

/** What has to be there, by the name under which it is missed. */
const MEMBERS: readonly (readonly [name: string, owner: object, member: string])[] = [
  ['the formula plugin’s start', UniverFormulaEnginePlugin.prototype, 'onStarting'],
  ['the undo stack', LocalUndoRedoService.prototype, '_getUndoStack'],
  ['the redo stack', LocalUndoRedoService.prototype, '_getRedoStack'],
  ['the status of undo', LocalUndoRedoService.prototype, '_updateStatus'],
  ['the dirty marks', ActiveDirtyManagerService.prototype, 'get'],
  ['the pieces of a formula', LexerTreeBuilder.prototype, 'sequenceNodesBuilder'],
  ['moving a formula', LexerTreeBuilder.prototype, 'moveFormulaRefOffset'],
  ['references made absolute', LexerTreeBuilder.prototype, 'convertRefersToAbsolute'],
  ['missing brackets', LexerTreeBuilder.prototype, 'checkIfAddBracket'],
  ['the argument under the cursor', LexerTreeBuilder.prototype, 'getFunctionAndParameter'],
  ['a formula’s tree', LexerTreeBuilder.prototype, 'treeBuilder'],
  ['the list of formulas', { updateFormulaData }, 'updateFormulaData'],
  ['what is asked before a cell is drawn', { intercept }, 'intercept'],
  ['formulas that follow an edit', MOVERS, '_getFormulaReferenceMoveInfo'],
  ['names that follow an edit', MOVERS, '_getUpdateDefinedNameMutations'],
  ...TOLD_OF_SHEETS.map((name) => ['sheets that come and go', MOVERS, name] as const),
];

/** Throws where a member of the engine is not as it was. */
export function checkInternals(univer: Univer, members = MEMBERS): void {
  const missing = members.filter(
    ([, owner, member]) => typeof (owner as Record<string, unknown>)[member] !== 'function',
  );
  const lost = missing.map(([name, , member]) => `${name} (${member})`);
  if (typeof univer.__getInjector !== 'function') lost.unshift('its services (__getInjector)');
  const { version } = UniverFormulaEnginePlugin;
  if (lost.length > 0 || version !== ENGINE_VERSION)
    throw new Error(
      `The spreadsheet engine is version ${version}, and ${ENGINE_VERSION} is needed${lost.length > 0 ? `; it lacks ${lost.join(', ')}` : ''}. ` +
        'See src/hosts/univer/internals.ts.',
    );
}
