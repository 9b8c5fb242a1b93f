import { describe, expect, it } from 'vitest';
import { openHeadless } from '../../../src/hosts/node/open';
import { readWorkbook, writeWorkbook } from '../../../src/xlsx';
import { contractModel, workbookContract } from '../../sheet/contract';
import { changedParts, fixture } from '../../xlsx/parts';

workbookContract('a file, headless', async () => {
  const { workbook, close } = await openHeadless(await writeWorkbook(contractModel), 'Contract');
  return { workbook, dispose: close };
});

describe('a file behind the port', () => {
  it('is saved with what was changed, and nothing else', async () => {
    const bytes = fixture('exceljs');
    const { workbook, save, close } = await openHeadless(bytes, 'Rib');
    expect(changedParts(bytes, await save())).toEqual([]);
    await workbook.apply('a longer cap', [
      { kind: 'write', range: { sheet: 'Parts', row: 1, column: 1, rows: 1, columns: 1 }, cells: [[44]] },
    ]);
    const saved = await save();
    close();
    expect(changedParts(bytes, saved)).toEqual(['xl/worksheets/sheet1.xml']);
    const { cells } = readWorkbook(saved).sheets[0]!;
    expect([cells[1]![1]!.value, cells[1]![3]!.value, cells[5]![3]!.value]).toEqual([44, 33, 52.625]);
  });
});
