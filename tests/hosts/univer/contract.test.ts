import { contractModel, workbookContract } from '../../sheet/contract';
import { calculate, loadWorkbook, calculatorHere, startEngine, UniverWorkbook } from '../../../src/hosts/univer';

let made = 0;

workbookContract('the embedded engine', async () => {
  const engine = startEngine({ calculator: calculatorHere });
  const id = `contract ${(made += 1)}`;
  loadWorkbook(engine, contractModel, id, 'Book');
  const book = engine.api.getWorkbook(id)!;
  await calculate(engine);
  const workbook = new UniverWorkbook(engine, id, 'headless', 'Book');
  return {
    workbook,
    dispose: async () => {
      await workbook.settled();
      engine.univer.dispose();
    },
    type: async (sheet, row, column, value) => void book.getSheetByName(sheet)!.getRange(row, column).setValue(value),
  };
});
