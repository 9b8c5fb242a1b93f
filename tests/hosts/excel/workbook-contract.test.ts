/**
 * The contract through Microsoft's own client library, at four requirement sets: one below what the manifest asks for,
 * that one, one between, and the newest that is used. The library refuses what a set does not have (ApiNotFound).
 */
import { expect, it } from 'vitest';
import { ExcelWorkbook } from '../../../src/hosts/excel/workbook';
import { contractModel, workbookContract } from '../../sheet/contract';
import { FakeBook } from './fake/book';
import { FakeExcel } from './client/excel';

for (const version of ['1.8', '1.9', '1.12', '1.20'])
  workbookContract(`Excel, by its client library at ExcelApi ${version}`, async () => {
    const excel = new FakeExcel(FakeBook.of(contractModel), { calculates: true, version });
    const uninstall = excel.install();
    const workbook = await ExcelWorkbook.open();
    return {
      workbook,
      dispose: async () => {
        await workbook.dispose();
        uninstall();
      },
      // Which formula a spilled cell belongs to is told from 1.12 on: no Excel below it has spills.
      ...(version === '1.8' || version === '1.9' ? { explainsSpills: false } : {}),
      // Before 1.9 Excel tells of no edit on any sheet, which is why the manifest asks for it.
      ...(version === '1.8'
        ? {}
        : { type: async (sheet, row, column, value) => excel.type(sheet, row, column, value) }),
    };
  });

it('the library refuses what an Excel of the requirement set does not have', async () => {
  const uninstall = new FakeExcel(FakeBook.of(contractModel), { version: '1.8' }).install();
  try {
    await expect(
      Excel.run(async ({ workbook }) => {
        workbook.worksheets.onChanged.add(async () => undefined);
      }),
    ).rejects.toMatchObject({ code: 'ApiNotFound' });
  } finally {
    uninstall();
  }
});
