/** A file read elsewhere than on the page, and handed to it in pieces: what is in view first. Imports nothing of the engine. */
import type { WorkbookModel } from '../../sheet';
import { packCell, rowPieces, type RowPiece } from '../../calculation/service';
import { readWorkbook, type Codec } from '../../xlsx';

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

export type FilePiece = FileHead | FileRows;

/** Reads a file and hands on all of its pieces. Throws XlsxError, and then has handed on nothing. */
export function readInPieces(bytes: Uint8Array, hear: (piece: FilePiece) => void, codec?: Codec): WorkbookModel {
  const model = readWorkbook(bytes, codec);
  const sizes = model.sheets.map(({ cells }) => ({
    rows: cells.length,
    columns: cells.reduce((most, line) => Math.max(most, line?.length ?? 0), 0),
  }));
  hear({ kind: 'head', model: { ...model, sheets: model.sheets.map((sheet) => ({ ...sheet, cells: [] })) }, sizes });
  const shown = model.sheets.findIndex(({ hidden }) => !hidden);
  const order = model.sheets.map((_sheet, index) => index).sort((a, b) => Number(b === shown) - Number(a === shown));
  for (const sheet of order) {
    const { cells } = model.sheets[sheet]!;
    for (const piece of rowPieces(cells.length, (row) => (cells[row] ?? []).map(packCell)))
      hear({ kind: 'rows', sheet, ...piece });
  }
  return model;
}
