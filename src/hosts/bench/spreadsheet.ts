/** The embedded spreadsheet with its face: grid, formula bar with the functions' help, sheet tabs. */
import {
  DataValidationStatus,
  DataValidationType,
  DOCS_NORMAL_EDITOR_UNIT_ID_KEY,
  ICommandService,
  IUniverInstanceService,
  ThemeService,
  UniverInstanceType,
  type Univer,
} from '@univerjs/core';
import DesignEnUS from '@univerjs/design/locale/en-US';
import { UniverDocsPlugin } from '@univerjs/docs';
import { UniverDocsUIPlugin } from '@univerjs/docs-ui';
import DocsUIEnUS from '@univerjs/docs-ui/locale/en-US';
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
  IEditorBridgeService,
  SetCellEditVisibleOperation,
  SheetSkeletonManagerService,
  UniverSheetsUIPlugin,
} from '@univerjs/sheets-ui';
import SheetsUIEnUS from '@univerjs/sheets-ui/locale/en-US';
import { ILayoutService, UniverUIPlugin } from '@univerjs/ui';
import UIEnUS from '@univerjs/ui/locale/en-US';
import { ACCENT } from '../../pane/shell/theme';
import { calculatorInWorker } from './calculator-in-worker';
import { fitFrozen, injectorOf, inTurns, startEngine, type Engine, type Room } from '../univer';
import { nameControls } from './control-names';
import { EDITING_AS_TYPED } from './editing';
import { OFFERED } from './offered';
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

/** Starts the engine and draws it into `container`, which has a size of its own. */
export function startSpreadsheet(container: HTMLElement): Engine {
  const engine = startEngine({
    calculator: calculatorInWorker,
    turns: inTurns,
    locales: LOCALE,
    face(univer: Univer) {
      univer.registerPlugin(UniverRenderEnginePlugin);
      univer.registerPlugin(UniverUIPlugin, { container, disableAutoFocus: true, ribbonType: 'simple' });
      univer.registerPlugin(UniverDocsPlugin);
      univer.registerPlugin(UniverDocsUIPlugin);
    },
    faceOverSheets(univer: Univer) {
      univer.registerPlugin(UniverSheetsUIPlugin, {
        disableAutoFocus: true,
        protectedRangeShadow: false,
        menu: OFFERED,
        override: [...EDITING_AS_TYPED] as never,
      });
    },
    faceOverFormulas(univer: Univer) {
      univer.registerPlugin(UniverSheetsFormulaUIPlugin);
      univer.registerPlugin(UniverSheetsNumfmtPlugin);
      univer.registerPlugin(UniverSheetsNumfmtUIPlugin);
      // The choices are few: a search box would take the keyboard from the cell that is being typed.
      univer.registerPlugin(UniverSheetsDataValidationUIPlugin, {
        showSearchOnDropdown: false,
        showEditOnDropdown: false,
      });
    },
  });
  wearAccent(engine);
  nameControls(injectorOf(engine.univer), container);
  const room = roomIn(container, () => shownAnew());
  const shownAnew = fitFrozen(injectorOf(engine.univer), room);
  redrawWritten(engine);
  return engine;
}

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

/** The grid marks what is chosen in the colour in which the pane does. */
function wearAccent(engine: Engine): void {
  const themes = injectorOf(engine.univer).get(ThemeService);
  themes.setTheme({ ...themes.getCurrentTheme(), primary: GRID_ACCENT });
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
export function drawAnew({ univer }: Engine, unit: string): void {
  const render = injectorOf(univer).get(IRenderManagerService).getRenderById(unit);
  const skeletons = render?.with(SheetSkeletonManagerService);
  const shown = skeletons?.getCurrentParam();
  if (shown) skeletons!.makeDirty(shown);
  skeletons?.reCalculate();
  render?.mainComponent?.makeForceDirty();
}

/** What is being typed goes into its cell, as when another cell is clicked. */
export function endEditing({ univer }: Engine): void {
  const injector = injectorOf(univer);
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
export function showSelectedCell(engine: Engine): void {
  const injector = injectorOf(engine.univer);
  if (injector.get(IUniverInstanceService).getUnit(DOCS_NORMAL_EDITOR_UNIT_ID_KEY))
    injector.get(IEditorBridgeService).refreshEditCellState();
}

function focusEditor(engine: Engine): void {
  const injector = injectorOf(engine.univer);
  // Without one that is current, no editor takes keys, and none would until another cell is selected.
  if (!injector.get(IUniverInstanceService).getCurrentUnitOfType(UniverInstanceType.UNIVER_DOC))
    showSelectedCell(engine);
  injector.get(ILayoutService).focus();
}

const MOST_FRAMES = 300;
const FRAMES_HELD = 3;
