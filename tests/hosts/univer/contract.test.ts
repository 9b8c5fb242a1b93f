import { contractModel, workbookContract } from '../../workbook/contract';
import { calculate, loadWorkbook, startEngine, UniverWorkbook } from '../../../src/hosts/univer';

workbookContract('the embedded engine', async () => {
  const engine = startEngine();
  loadWorkbook(engine, contractModel, 'book', 'Book');
  const book = engine.api.getWorkbook('book')!;
  await calculate(engine);
  const workbook = new UniverWorkbook(engine, 'book', 'headless', 'Book');
  return {
    workbook,
    dispose: () => engine.univer.dispose(),
    type: async (sheet, row, column, value) => void book.getSheetByName(sheet)!.getRange(row, column).setValue(value),
  };
});
