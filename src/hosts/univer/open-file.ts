/** Opens a file in pieces, so that the page shows the first rows at once and answers while the others come. */
import {
  CommandType,
  CustomCommandExecutionError,
  ICommandService,
  type IDisposable,
  type Worksheet,
} from '@univerjs/core';
import { unpackCell } from '../../calculation/service';
import type { CellModel } from '../../sheet';
import { toCellData } from './cells';
import { bookOf, currentBook, showBook } from './places';
import { beginWorkbook, discardWorkbook, finishWorkbook, type Engine } from './engine';
import type { FileHead, FilePiece, FileRows } from './calculator-port';
import { CELLS_CHANGE, type MutationPlace } from './structure';
import { sheetId, rowLooks, type RowLook } from './snapshot';

/**
 * Puts a file into the engine under a new id; nothing is calculated yet. Until it resolves the workbook takes no edits;
 * of a large file the first rows can be looked at meanwhile, as a workbook of their own that goes then.
 * Throws XlsxError, and then nothing was put into the engine.
 * @param shown is called when rows have come that may be in view, with the id of the workbook that has them
 */
export async function openFile(
  engine: Engine,
  bytes: Uint8Array,
  { id, title }: { readonly id: string; readonly title: string },
  shown: (id: string) => void = () => undefined,
): Promise<void> {
  const opening = new Opening(engine, id, title, shown);
  const key = `${id} file`;
  try {
    const unknown = await engine.calculation.calculator.readFile(key, bytes, (piece) => opening.hear(piece));
    const { model } = opening.end();
    finishWorkbook(engine, model, id);
    // Formulas of dates before 1904 are counted by looks, which are the mirror's own: it sends them itself.
    engine.calculation.adopt(id, model.dates1904 ? undefined : key, unknown);
  } catch (error) {
    opening.takeBack();
    throw error;
  }
  shown(id);
}

/** The workbooks of a file that is being opened. */
class Opening {
  private head: FileHead | undefined;
  /** By the ids of those that there are now: what refuses edits of each. */
  private readonly begun = new Map<string, IDisposable>();
  private readonly before: string | undefined;

  constructor(
    private readonly engine: Engine,
    private readonly id: string,
    private readonly title: string,
    private readonly shown: (id: string) => void,
  ) {
    this.before = currentBook(engine.injector)?.getUnitId();
  }

  hear(piece: FilePiece): void {
    if (piece.kind === 'head') this.head = piece;
    else if (piece.kind === 'rows') {
      this.beginOnce();
      this.fill(this.id, this.head!, piece);
    } else {
      this.begin(this.firstId, piece.head);
      this.fill(this.firstId, piece.head, piece.rows);
    }
  }

  /** All has come. */
  end(): FileHead {
    this.beginOnce();
    this.begun.get(this.id)?.dispose();
    return this.head!;
  }

  /** Nothing of it stays, and what was open before is shown again. */
  takeBack(): void {
    if (this.begun.size === 0) return;
    for (const one of this.begun.keys()) this.discard(one);
    if (this.before === undefined) return;
    showBook(this.engine.injector, this.before);
    this.shown(this.before);
  }

  private get firstId(): string {
    return `${this.id} first`;
  }

  private fill(id: string, head: FileHead, piece: FileRows): void {
    fillRows(bookOf(this.engine.injector, id)!.getSheetBySheetId(sheetId(piece.sheet))!, head, piece);
    if (piece.row === 0) this.shown(id);
  }

  /** Begun when rows come and not with the head, so that no empty sheet is shown after the first rows. */
  private beginOnce(): void {
    if (this.begun.has(this.id)) return;
    this.begin(this.id, this.head!);
    if (this.begun.has(this.firstId)) this.discard(this.firstId);
  }

  private begin(id: string, head: FileHead): void {
    beginWorkbook(this.engine, head, id, this.title);
    this.begun.set(id, refuseEdits(this.engine, id));
  }

  private discard(id: string): void {
    this.begun.get(id)?.dispose();
    this.begun.delete(id);
    discardWorkbook(this.engine, id);
  }
}

function fillRows(worksheet: Worksheet, { model }: FileHead, { sheet: index, row: first, lines }: FileRows): void {
  const matrix = worksheet.getCellMatrix();
  const cells = lines.map((line) => line.map(unpackCell));
  cells.forEach((line, r) => {
    const row = matrix.getRowOrCreate(first + r);
    line.forEach((cell: CellModel | undefined, column) => {
      if (cell) row[column] = toCellData(cell);
    });
  });
  const rows = worksheet.getConfig().rowData as Record<number, RowLook>;
  for (const [r, look] of rowLooks({ ...model.sheets[index]!, cells }, model.styles)) {
    // A height that the file gives stays.
    const row = first + r;
    if (rows[row]?.h === undefined) rows[row] = { ...rows[row], ...look };
  }
}

/** What is edited in rows that have not come yet would be lost. */
export function refuseEdits(engine: Engine, id: string): IDisposable {
  return engine.injector.get(ICommandService).beforeCommandExecuted(({ id: command, type, params }) => {
    const { unitId }: MutationPlace = params ?? {};
    if (type === CommandType.MUTATION && unitId === id && CELLS_CHANGE.has(command))
      throw new CustomCommandExecutionError('The workbook is still being opened.');
  });
}
