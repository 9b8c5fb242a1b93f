import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe } from 'vitest';
import { writeWorkbook } from '../../src/xlsx';
import { chromium } from '../helpers/programs';
import { contractModel, workbookContract } from '../workbook/contract';
import { openBytes, startBench, typeInto, type BenchBrowser } from './bench-page';
import { RemoteWorkbook } from './remote-workbook';

const executable = chromium();

describe.skipIf(!executable)('in a browser', () => {
  let bench: BenchBrowser;
  let page: Page;
  let file: Uint8Array;
  let opened = 0;
  beforeAll(async () => {
    bench = await startBench(executable!);
    page = await bench.open();
    file = withProtection(await writeWorkbook(contractModel), 3);
  });
  afterAll(() => bench?.close());

  workbookContract('the bench', async () => {
    await openBytes(page, `contract ${(opened += 1)}.xlsx`, file);
    return {
      workbook: await RemoteWorkbook.over(page),
      dispose: () => undefined,
      type: (sheet, row, column, value) => typeInto(page, sheet, row, column, String(value)),
    };
  });
});

/** The file with its sheet of this number protected, which our own writer does not do. */
function withProtection(bytes: Uint8Array, sheet: number): Uint8Array {
  const parts = unzipSync(bytes);
  const name = `xl/worksheets/sheet${sheet}.xml`;
  const xml = strFromU8(parts[name]!);
  parts[name] = strToU8(xml.replace(/<\/sheetData>|<sheetData\/>/, '$&<sheetProtection sheet="1"/>'));
  return zipSync(parts);
}
