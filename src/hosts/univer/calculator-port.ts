/**
 * The calculator as the engine's workbooks reach it, in this thread or in one of its own (src/hosts/bench); and a file
 * read where it is, and handed to the page in pieces: what is in view first. Imports nothing of the engine.
 */
import {
  CalculationService,
  packCell,
  rowPieces,
  type Answer,
  type Request,
  type RowPiece,
  type UnknownInBook,
} from '../../calculation/service';
import type { WorkbookModel } from '../../sheet';
import { readFirstRows, readWorkbook, type Codec } from '../../xlsx';
import { withoutCells } from '../../xlsx/extras/without-cells';

export interface CalculatorPort {
  post(request: Request): void;
  /**
   * Reads a file and begins it under a name; `hear` is handed its pieces. Gives the formulas that cannot be calculated.
   * Rejects with XlsxError.
   */
  readFile(book: string, bytes: Uint8Array, hear: (piece: FilePiece) => void): Promise<readonly UnknownInBook[]>;
  /** The file without its cells. Rejects with XlsxError. */
  withoutCells(bytes: Uint8Array): Promise<Uint8Array>;
  close(): void;
}

export interface CalculatorHost {
  /** True where every request is answered before `post` comes back. */
  readonly isHere: boolean;
  /** Starts a calculator that answers through `tell`; `died` is called when it will answer no more. */
  start(tell: (answer: Answer) => void, died: (why: string) => void): CalculatorPort;
}

/** In this thread. */
export const calculatorHere: CalculatorHost = {
  isHere: true,
  start(tell) {
    const service = new CalculationService(tell);
    return {
      post: (request) => service.take(request),
      readFile: async (book, bytes, hear) => service.adopt(book, readInPieces(bytes, hear)),
      withoutCells: async (bytes) => withoutCells(bytes),
      close: () => undefined,
    };
  },
};

/** The workbook without its cells, and how many rows and columns each sheet has. */
export interface FileHead {
  readonly kind: 'head';
  readonly model: WorkbookModel;
  readonly sizes: readonly SheetSize[];
}

export interface SheetSize {
  readonly rows: number;
  readonly columns: number;
}

/** Some rows of a sheet, by its place in the file. */
export interface FileRows extends RowPiece {
  readonly kind: 'rows';
  readonly sheet: number;
}

export type FilePiece =
  | FileHead
  | FileRows
  /** What can be looked at before a large file has been read: none of it is the workbook's. */
  | { readonly kind: 'first'; readonly head: FileHead; readonly rows: FileRows };

/** Reads a file and hands on all of its pieces. Throws XlsxError, and then has handed on first rows at the most. */
export function readInPieces(bytes: Uint8Array, hear: (piece: FilePiece) => void, codec?: Codec): WorkbookModel {
  const first = readFirstRows(bytes, codec);
  const sheet = first?.sheets.findIndex(({ cells }) => cells.length > 0) ?? -1;
  if (first && sheet >= 0) {
    const lines = Array.from(first.sheets[sheet]!.cells, (line) => Array.from(line ?? [], packCell));
    hear({ kind: 'first', head: headOf(first), rows: { kind: 'rows', sheet, row: 0, lines } });
  }
  const model = readWorkbook(bytes, codec);
  hear(headOf(model));
  const shown = model.sheets.findIndex(({ hidden }) => !hidden);
  const order = model.sheets.map((_sheet, index) => index).sort((a, b) => Number(b === shown) - Number(a === shown));
  for (const sheet of order) {
    const { cells } = model.sheets[sheet]!;
    for (const piece of rowPieces(cells.length, (row) => (cells[row] ?? []).map(packCell)))
      hear({ kind: 'rows', sheet, ...piece });
  }
  return model;
}

const headOf = (model: WorkbookModel): FileHead => ({
  kind: 'head',
  model: { ...model, sheets: model.sheets.map((sheet) => ({ ...sheet, cells: [] })) },
  sizes: model.sheets.map(({ cells }) => ({
    rows: cells.length,
    columns: cells.reduce((most, line) => Math.max(most, line?.length ?? 0), 0),
  })),
});
