/** A file read elsewhere than on the page, and handed to it in pieces: what is in view first. Imports nothing of the engine. */
import type { WorkbookModel } from '../../sheet';
import { packCell, rowPieces, type RowPiece } from '../../calculation/service';
import { readFirstRows, readWorkbook, type Codec } from '../../xlsx';

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

/** What can be looked at before a large file has been read: none of it is the workbook's. */
export interface FirstRows {
  readonly kind: 'first';
  readonly head: FileHead;
  readonly rows: FileRows;
}

export type FilePiece = FirstRows | FileHead | FileRows;

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
