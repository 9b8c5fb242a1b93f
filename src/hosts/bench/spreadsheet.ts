/** The embedded spreadsheet with its face: grid, formula bar with the functions' help, sheet tabs. */
import {
  DataValidationStatus,
  DataValidationType,
  DOCS_NORMAL_EDITOR_UNIT_ID_KEY,
  ICommandService,
  IUniverInstanceService,
  LocaleService,
  ThemeService,
  UniverInstanceType,
  type Injector,
  type Univer,
} from '@univerjs/core';
import DesignEnUS from '@univerjs/design/locale/en-US';
import { UniverDocsPlugin } from '@univerjs/docs';
import { UniverDocsUIPlugin } from '@univerjs/docs-ui';
import DocsUIEnUS from '@univerjs/docs-ui/locale/en-US';
import { LexerTreeBuilder } from '@univerjs/engine-formula';
import { DeviceInputEventType, IRenderManagerService, UniverRenderEnginePlugin } from '@univerjs/engine-render';
import SheetsEnUS from '@univerjs/sheets/locale/en-US';
import SheetsFormulaEnUS from '@univerjs/sheets-formula/locale/en-US';
import { SheetDataValidationModel, SheetsDataValidationValidatorService } from '@univerjs/sheets-data-validation';
import SheetsDataValidationEnUS from '@univerjs/sheets-data-validation/locale/en-US';
import { UniverSheetsDataValidationUIPlugin } from '@univerjs/sheets-data-validation-ui';
import SheetsDataValidationUIEnUS from '@univerjs/sheets-data-validation-ui/locale/en-US';
import { UniverSheetsFormulaUIPlugin } from '@univerjs/sheets-formula-ui';
import SheetsFormulaUIEnUS from '@univerjs/sheets-formula-ui/locale/en-US';
import { UniverSheetsNumfmtPlugin } from '@univerjs/sheets-numfmt';
import { UniverSheetsNumfmtUIPlugin } from '@univerjs/sheets-numfmt-ui';
import SheetsNumfmtUIEnUS from '@univerjs/sheets-numfmt-ui/locale/en-US';
import {
  EditingRenderController,
  IEditorBridgeService,
  SetCellEditVisibleOperation,
  SheetSkeletonManagerService,
  UniverSheetsUIPlugin,
} from '@univerjs/sheets-ui';
import SheetsUIEnUS from '@univerjs/sheets-ui/locale/en-US';
import {
  ILayoutService,
  IMenuManagerService,
  MenuManagerPosition,
  UniverUIPlugin,
  type IMenuSchema,
} from '@univerjs/ui';
import UIEnUS from '@univerjs/ui/locale/en-US';
import { memoized } from '../../core/memoized';
import { askWorker, NoWorker, WorkerDied } from '../../pane/shared/worker-asks';
import { ACCENT } from '../../pane/shell/theme';
import { XlsxError } from '../../xlsx';
import { fitFrozen, inTurns, NOT_SAVED, startEngine, type CalculatorHost, type Engine, type Room } from '../univer';
import type { CalculationAnswers } from './calculation-worker';
import '@univerjs/design/lib/index.css';
import '@univerjs/ui/lib/index.css';
import '@univerjs/docs-ui/lib/index.css';
import '@univerjs/sheets-ui/lib/index.css';
import '@univerjs/sheets-formula-ui/lib/index.css';
import '@univerjs/sheets-numfmt-ui/lib/index.css';
import '@univerjs/sheets-data-validation-ui/lib/index.css';

const LOCALE = Object.assign(
  {},
  DesignEnUS,
  UIEnUS,
  DocsUIEnUS,
  SheetsEnUS,
  SheetsUIEnUS,
  SheetsFormulaEnUS,
  SheetsFormulaUIEnUS,
  SheetsNumfmtUIEnUS,
  SheetsDataValidationEnUS,
  SheetsDataValidationUIEnUS,
);

/** The engine checks entries a moment later, when another workbook may be open: then there is nothing left to check. */
const { validatorRanges } = SheetsDataValidationValidatorService.prototype;
SheetsDataValidationValidatorService.prototype.validatorRanges = function (...place) {
  return validatorRanges.apply(this, place).catch((error: Error) => {
    if (error.message.startsWith('cannot find current work')) return [];
    throw error;
  });
};

/** An open list takes every text: nothing that is not on it is marked as wrong. */
const { validator } = SheetDataValidationModel.prototype;
SheetDataValidationModel.prototype.validator = function (rule, place, told) {
  if (rule.type !== DataValidationType.LIST || rule.showErrorMessage !== false)
    return validator.call(this, rule, place, told);
  told?.(DataValidationStatus.VALID, false);
  return DataValidationStatus.VALID;
};

/**
 * What is typed into a cell is what the cell gets. The engine's editor writes numbers, names and brackets of a typed
 * formula anew before it stores it, and cuts texts behind a number at shifted places; it is given a reader here that
 * finds nothing to write anew, so that the text goes on as it was typed.
 */
const AS_TYPED = {
  sequenceNodesBuilder: () => undefined,
  checkIfAddBracket: () => 0,
} as unknown as LexerTreeBuilder;

type Services = ConstructorParameters<typeof EditingRenderController>;

/** Where the editor's constructor takes the reader of formulas. */
const READER = 5;

class EditingAsTyped extends EditingRenderController {
  constructor(...services: Services) {
    if (!(services[READER] instanceof LexerTreeBuilder))
      throw new Error(
        'The spreadsheet’s editor takes its services in another order. See src/hosts/bench/spreadsheet.ts.',
      );
    super(...(services.with(READER, AS_TYPED) as Services));
  }
}

/** Entries of menus and toolbars, by their ids in sheets-ui, that lead to such commands under ids of their own. */
const ENTRIES = [
  'sheet.command.set-range-underline',
  'sheet.command.set-range-stroke',
  'sheet.command.set-range-font-family',
  'sheet.command.set-range-subscript',
  'sheet.command.set-range-superscript',
  'sheet.contextMenu.permission',
  'sheet.command.add-range-protection-from-toolbar',
  'sheet.command.add-range-protection-from-sheet-bar',
  'sheet.command.add-range-protection-from-context-menu',
  'sheet.command.change-sheet-protection-from-sheet-bar',
  'sheet.command.view-sheet-permission-from-sheet-bar',
  'sheet.command.view-sheet-permission-from-context-menu',
];

/** For the engine's sheets: menus without what a saved file would not have. */
const OFFERED = Object.fromEntries([...NOT_SAVED.keys(), ...ENTRIES].map((id) => [id, { hidden: true }]));

/** Starts the calculator in a worker, so that the page answers while it calculates. */
const calculatorInWorker: CalculatorHost = {
  isHere: false,
  start(tell, died) {
    const asks = askWorker<CalculationAnswers>(() => new Worker(new URL('./calculation-worker.ts', import.meta.url)));
    const failed = (error: unknown): void => {
      if (error instanceof NoWorker || error instanceof WorkerDied) died(wordsOf(error));
    };
    /** An error loses its class on its way. */
    const asItWas = (error: unknown): never => {
      failed(error);
      if (error instanceof Error && error.name === 'XlsxError') throw new XlsxError('corrupt', error.message);
      throw error instanceof NoWorker || error instanceof WorkerDied ? new Error(wordsOf(error)) : error;
    };
    return {
      post: (request) => void asks.ask('take', request, tell).catch(failed),
      readFile: (book, bytes, hear) => asks.ask('readFile', { book, bytes }, hear).catch(asItWas),
      withoutCells: (bytes) => asks.ask('withoutCells', bytes).catch(asItWas),
      close: () => asks.end(),
    };
  },
};

const wordsOf = (error: unknown): string =>
  error instanceof NoWorker
    ? 'The calculator could not be loaded. Check the connection, then load the page again.'
    : 'The calculator ended unexpectedly, perhaps because memory ran out. Edit a cell to have it start again.';

/** Starts the engine and draws it into `container`, which has a size of its own. */
export function startSpreadsheet(container: HTMLElement): Engine {
  const engine = startEngine({
    calculator: calculatorInWorker,
    turns: inTurns,
    locales: LOCALE,
    face: (univer: Univer) =>
      univer.registerPlugins([
        [UniverRenderEnginePlugin],
        [UniverUIPlugin, { container, disableAutoFocus: true, ribbonType: 'simple' }],
        [UniverDocsPlugin],
        [UniverDocsUIPlugin],
      ]),
    faceOverSheets: (univer: Univer) =>
      univer.registerPlugin(UniverSheetsUIPlugin, {
        disableAutoFocus: true,
        protectedRangeShadow: false,
        menu: OFFERED,
        override: [[EditingRenderController, { useClass: EditingAsTyped }]] as never,
      }),
    faceOverFormulas: (univer: Univer) =>
      univer.registerPlugins([
        [UniverSheetsFormulaUIPlugin],
        [UniverSheetsNumfmtPlugin],
        [UniverSheetsNumfmtUIPlugin],
        // The choices are few: a search box would take the keyboard from the cell that is being typed.
        [UniverSheetsDataValidationUIPlugin, { showSearchOnDropdown: false, showEditOnDropdown: false }],
      ]),
  });
  const { injector } = engine;
  // The grid marks what is chosen in the colour in which the pane does.
  const themes = injector.get(ThemeService);
  themes.setTheme({ ...themes.getCurrentTheme(), primary: GRID_ACCENT });
  nameControls(injector, container);
  const room = roomIn(container, () => shownAnew());
  const shownAnew = fitFrozen(injector, room);
  redrawWritten(engine);
  return engine;
}

/** What the engine's menus have no word for, by where it stands. */
const NAMED: readonly (readonly [selector: string, name: string])[] = [
  ['[data-slot^="dropdown-menu"] [data-u-comp="sheet-bar-append-button"]', 'All sheets'],
  ['[data-u-comp="sheet-bar-append-button"]', 'Add a sheet'],
  ['[data-u-comp="defined-name"] input', 'Selected cells, or a name to go to'],
  ['[data-u-comp="defined-name"] a', 'Defined names'],
  ['[role="track"] a', 'Zoom of 100 %'],
  ['[role="handle"]', 'Zoom'],
  ['button:has(+ * [role="track"])', 'Smaller'],
  ['*:has([role="track"]) + button', 'Larger'],
  ['[data-u-command="sheet.command.set-range-fontsize"] input', 'Size of the text'],
];

/** Names for the buttons and boxes, drawn now and later, whose pictures alone say what they are for. */
function nameControls(injector: Injector, container: HTMLElement): void {
  const locale = injector.get(LocaleService);
  const menus = injector.get(IMenuManagerService);
  // The engine makes all entries of its menus anew when it is asked for them, and the page changes with every key.
  const tooltip = memoized((id: string): string => {
    const entry = flat(menus.getMenuByPositionKey(MenuManagerPosition.RIBBON)).find(({ item }) => item?.id === id);
    return entry?.item?.tooltip ? locale.t(entry.item.tooltip) : '';
  });
  const name = (): void => {
    for (const control of container.querySelectorAll('button, a, input')) {
      if (control.hasAttribute('aria-label') || control.textContent.trim() !== '') continue;
      const command = control.closest('[data-u-command]')?.getAttribute('data-u-command') ?? undefined;
      const called =
        NAMED.find(([selector]) => control.matches(selector))?.[1] ??
        (command === undefined ? undefined : tooltip(command));
      if (called) control.setAttribute('aria-label', called);
    }
  };
  new MutationObserver(name).observe(container, { childList: true, subtree: true });
  name();
}

const flat = (entries: readonly IMenuSchema[]): IMenuSchema[] =>
  entries.flatMap((entry) => [entry, ...flat(entry.children ?? [])]);

/** Milliseconds between two drawings of results that come one after the other. */
const BETWEEN_DRAWINGS = 250;

/** Draws results that came without a command: now and then while they come, and once they are all there. */
function redrawWritten(engine: Engine): void {
  let unit: string | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const draw = (): void => {
    clearTimeout(timer);
    timer = undefined;
    if (unit !== undefined) drawAnew(engine, unit);
    unit = undefined;
  };
  engine.calculation.onWritten((written) => {
    unit = written;
    timer ??= setTimeout(draw, BETWEEN_DRAWINGS);
  });
  engine.calculation.onDone(draw);
}

/** The grid's ten steps go from light to dark, and its sixth hundred is the accent itself. */
const GRID_ACCENT = {
  50: ACCENT[160],
  100: ACCENT[150],
  200: ACCENT[140],
  300: ACCENT[130],
  400: ACCENT[110],
  500: ACCENT[90],
  600: ACCENT[80],
  700: ACCENT[70],
  800: ACCENT[60],
  900: ACCENT[50],
};

/** Pixels of the headers of rows and columns. */
const ROW_HEADERS = 46;
const COLUMN_HEADERS = 20;

/**
 * What cells have of the grid; all the room there is, before anything is drawn. The grid asks while it is drawn, and a
 * measure would have the page laid out each time: it is taken once, and again when `changed` is called.
 */
function roomIn(container: HTMLElement, changed: () => void): () => Room {
  let room: Room | undefined;
  const observer = new ResizeObserver(() => {
    room = undefined;
    changed();
  });
  let drawn: Element | null = null;
  return () => {
    if (room && drawn?.isConnected) return room;
    drawn = container.querySelector('section[data-range-selector]');
    const width = (drawn?.clientWidth ?? 0) - ROW_HEADERS;
    const height = (drawn?.clientHeight ?? 0) - COLUMN_HEADERS;
    if (!drawn || width <= 0 || height <= 0) return { width: Infinity, height: Infinity };
    observer.observe(drawn);
    return (room = { width, height });
  };
}

/** Has the sheet in view drawn from its cells and rows as they now are, where those changed without a command. */
export function drawAnew({ injector }: Engine, unit: string): void {
  const render = injector.get(IRenderManagerService).getRenderById(unit);
  const skeletons = render?.with(SheetSkeletonManagerService);
  const shown = skeletons?.getCurrentParam();
  if (shown) skeletons!.makeDirty(shown);
  skeletons?.reCalculate();
  render?.mainComponent?.makeForceDirty();
}

/** What is being typed goes into its cell, as when another cell is clicked. */
export function endEditing({ injector }: Engine): void {
  const editor = injector.get(IEditorBridgeService).isVisible();
  if (!editor.visible) return;
  injector.get(ICommandService).syncExecuteCommand(SetCellEditVisibleOperation.id, {
    eventType: DeviceInputEventType.PointerDown,
    visible: false,
    unitId: editor.unitId,
  });
}

/**
 * Gives the grid the keyboard: at once, or within the next frames where the engine has not drawn what takes it yet, and
 * again where it draws that anew. Resolves when it stays there, and when a person has gone elsewhere meanwhile.
 */
export async function focusGrid(engine: Engine, container: HTMLElement): Promise<void> {
  let held = 0;
  for (let frame = 0; frame < MOST_FRAMES && held < FRAMES_HELD; frame++) {
    const before = document.activeElement;
    if (!container.contains(before)) focusEditor(engine);
    await new Promise((resolve) => requestAnimationFrame(resolve));
    const now = document.activeElement;
    if (container.contains(now)) held += 1;
    else if (now !== before && now !== document.body) return;
    else held = 0;
  }
}

/** Has the editor of cells and the bar above the grid show the cell that is selected: they wait for the next selection where a workbook was shown before they were made. */
export function showSelectedCell({ injector }: Engine): void {
  if (injector.get(IUniverInstanceService).getUnit(DOCS_NORMAL_EDITOR_UNIT_ID_KEY))
    injector.get(IEditorBridgeService).refreshEditCellState();
}

function focusEditor(engine: Engine): void {
  const { injector } = engine;
  // Without one that is current, no editor takes keys, and none would until another cell is selected.
  if (!injector.get(IUniverInstanceService).getCurrentUnitOfType(UniverInstanceType.UNIVER_DOC))
    showSelectedCell(engine);
  injector.get(ILayoutService).focus();
}

const MOST_FRAMES = 300;
const FRAMES_HELD = 3;
