/**
 * What an open workbook's file has beside its cells, where the edits since have put it. The structure's log is made
 * once more in a copy of the file without cells, by the same code that saves: what is shown stands where the saved
 * file has it, undo included.
 */
import { ICommandService, type IDisposable, type Workbook as EngineWorkbook } from '@univerjs/core';
import {
  InsertSheetMutation,
  RemoveSheetMutation,
  SetWorksheetNameMutation,
  SetWorksheetOrderMutation,
} from '@univerjs/sheets';
import { unless } from '../../../core/unless';
import { shiftWorkbook, XlsxError, type Operation } from '../../../xlsx';
import { readExtras, readPart, type SheetExtras } from '../../../xlsx/extras/read';
import type { Engine } from '../engine';
import { CELLS_MOVE } from '../structure';

const RESHAPES = new Set<string>([
  ...CELLS_MOVE,
  InsertSheetMutation.id,
  RemoveSheetMutation.id,
  SetWorksheetNameMutation.id,
  SetWorksheetOrderMutation.id,
]);

/** The file without cells after the first operations of the log. */
interface Shifted {
  readonly operations: readonly Operation[];
  readonly bytes: Uint8Array;
}

const NONE: ReadonlyMap<string, SheetExtras> = new Map();

export class FileExtras {
  private readonly file: Shifted;
  private latest: Shifted;
  private sheets = NONE;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly subscription: IDisposable;

  /**
   * @param bare the file that the workbook came from, without its cells
   * @param changed is called when something stands elsewhere, or came or went
   */
  constructor(
    private readonly engine: Engine,
    private readonly book: EngineWorkbook,
    bare: Uint8Array,
    private readonly changed: () => void,
  ) {
    this.latest = this.file = { operations: [], bytes: bare };
    this.read();
    this.subscription = engine.injector.get(ICommandService).onCommandExecuted(({ id, params }) => {
      if (!RESHAPES.has(id) || (params as { unitId?: string }).unitId !== book.getUnitId()) return;
      // An edit is many commands in one turn, and what is taken back leaves the log at its end.
      this.timer ??= setTimeout(() => this.follow());
    });
  }

  /** What stands on a sheet, by the engine's id; undefined for a sheet that did not come from the file. */
  on(sheet: string): SheetExtras | undefined {
    const name = this.book.getSheetBySheetId(sheet)?.getName();
    return name === undefined ? undefined : this.sheets.get(name);
  }

  /** Bytes of a part of the file, such as a picture. */
  part(name: string): Uint8Array | undefined {
    return readPart(this.file.bytes, name);
  }

  dispose(): void {
    clearTimeout(this.timer);
    this.subscription.dispose();
  }

  private follow(): void {
    this.timer = undefined;
    this.read();
    this.changed();
  }

  /** Where the file cannot be read, or the operations cannot be made in it, nothing of it is shown: saving says what is wrong. */
  private read(): void {
    const operations = this.engine.structure.of(this.book.getUnitId());
    const from = this.latest.operations.every((one, index) => one === operations[index]) ? this.latest : this.file;
    const read = unless(XlsxError, () => {
      const bytes = shiftWorkbook(from.bytes, operations.slice(from.operations.length));
      return { bytes, sheets: readExtras(bytes) };
    });
    this.latest = read ? { operations, bytes: read.bytes } : this.file;
    this.sheets = read?.sheets ?? NONE;
  }
}
