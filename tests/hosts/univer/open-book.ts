/** A workbook in the engine without a face, as the bench has it. */
import { calculate, loadWorkbook, calculatorHere, startEngine, UniverWorkbook } from '../../../src/hosts/univer';
import { CellError, type Cell, type RangeAddress } from '../../../src/sheet';
import { readWorkbook } from '../../../src/xlsx';

let opened = 0;

export async function openBook(bytes: Uint8Array) {
  const engine = startEngine({ calculator: calculatorHere });
  const id = `open book ${(opened += 1)}`;
  loadWorkbook(engine, readWorkbook(bytes), id, 'Book');
  await calculate(engine);
  const workbook = new UniverWorkbook(engine, id, 'headless', 'Book');
  const told: string[] = [];
  workbook.guard(bytes, (text) => told.push(text));
  const book = engine.api.getUniverSheet(id)!;
  const read = async (range: RangeAddress): Promise<(Cell | string)[][]> => {
    await workbook.settled();
    const cells = await workbook.read(range);
    return cells.map((line) => line.map((cell) => (cell instanceof CellError ? cell.code : cell)));
  };
  const saved = async (): Promise<Uint8Array> => {
    await workbook.settled();
    return workbook.saved(bytes);
  };
  return { engine, id, workbook, lists: workbook.lists, book, read, saved, told };
}
