import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe } from 'vitest';
import { writeWorkbook } from '../../src/xlsx';
import { chromiumOfPages } from '../helpers/programs';
import { contractModel, workbookContract } from '../sheet/contract';
import { openBytes, benchForTests, typeInto, type BenchBrowser } from '../helpers/bench-page';
import { withProtection } from './protected-file';
import { RemoteWorkbook } from '../helpers/remote-workbook';

const executable = chromiumOfPages();

describe.skipIf(!executable)('in a browser', () => {
  let bench: BenchBrowser;
  let page: Page;
  let file: Uint8Array;
  let opened = 0;
  beforeAll(async () => {
    bench = await benchForTests(executable!);
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
