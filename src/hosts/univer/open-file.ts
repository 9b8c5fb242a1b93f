/** Opens a file in pieces, so that the page shows the first rows at once and answers while the others come. */
import {
  CommandType,
  CustomCommandExecutionError,
  ICommandService,
  IUniverInstanceService,
  UniverInstanceType,
  type IDisposable,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import { unpackCell, type UnknownInBook } from '../../calculation/service';
import type { CellModel } from '../../sheet';
import { toCellData } from './cells';
import { beginWorkbook, closeWorkbook, finishWorkbook, type Engine } from './engine';
import type { FileHead, FileRows } from './file-reading';
import { injectorOf } from './internals';
import { CELLS_CHANGE, type MutationPlace } from './mutations';
import { sheetId, rowLooks, type RowLook } from './snapshot';

/**
 * Puts a file into the engine under a new id; nothing is calculated yet. Until it resolves the workbook takes no edits.
 * Throws XlsxError, and then nothing was put into the engine.
 * @param shown is called when rows have come that may be in view
 */
export async function openFile(
  engine: Engine,
  bytes: Uint8Array,
  { id, title }: { readonly id: string; readonly title: string },
  shown: () => void = () => undefined,
): Promise<void> {
  let head: FileHead | undefined;
  let unknown: readonly UnknownInBook[];
  let refusing: IDisposable | undefined;
  const key = `${id} file`;
  try {
    unknown = await engine.calculation.readFile(key, bytes, (piece) => {
      if (piece.kind === 'head') {
        head = piece;
        beginWorkbook(engine, piece, id, title);
        refusing = refuseEdits(engine, id);
      } else {
        fillRows(engine, id, head!, piece);
        if (piece.row === 0) shown();
      }
    });
  } catch (error) {
    if (head) closeWorkbook(engine, id);
    throw error;
  } finally {
    refusing?.dispose();
  }
  finishWorkbook(engine, head!.model, id);
  // Formulas of dates before 1904 are counted by looks, which are the mirror's own: it sends them itself.
  engine.calculation.adopt(id, head!.model.dates1904 ? undefined : key, unknown);
  shown();
}

function fillRows(
  engine: Engine,
  id: string,
  { model }: FileHead,
  { sheet: index, row: first, lines }: FileRows,
): void {
  const worksheet = bookOf(engine, id).getSheetBySheetId(sheetId(index))!;
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
  return injectorOf(engine.univer)
    .get(ICommandService)
    .beforeCommandExecuted(({ id: command, type, params }) => {
      const place: MutationPlace | undefined = params;
      if (type !== CommandType.MUTATION || place?.unitId !== id) return;
      if (CELLS_CHANGE.has(command)) throw new CustomCommandExecutionError('The workbook is still being opened.');
    });
}

const bookOf = (engine: Engine, id: string): EngineWorkbook =>
  injectorOf(engine.univer).get(IUniverInstanceService).getUnit<EngineWorkbook>(id, UniverInstanceType.UNIVER_SHEET)!;
