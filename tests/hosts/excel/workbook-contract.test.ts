import { ExcelWorkbook } from '../../../src/hosts/excel/workbook';
import { contractModel, workbookContract } from '../../sheet/contract';
import { FakeBook } from './fake/book';
import { FakeExcel } from './fake/excel';

workbookContract('Excel, by a stand-in for Office.js', async () => {
  const excel = new FakeExcel(FakeBook.of(contractModel), { calculates: true });
  const uninstall = excel.install();
  const workbook = await ExcelWorkbook.open();
  return {
    workbook,
    dispose: async () => {
      await workbook.dispose();
      uninstall();
    },
    type: async (sheet, row, column, value) => excel.type(sheet, row, column, value),
  };
});
