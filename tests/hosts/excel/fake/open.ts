import { afterEach, beforeEach, vi } from 'vitest';
import { ExcelWorkbook } from '../../../../src/hosts/excel/workbook';
import { contractModel } from '../../../sheet/contract';
import { FakeBook } from './book';
import { FakeExcel, type FakeExcelOptions } from '../client/excel';

let cleanUp: (() => void)[] = [];
afterEach(() => {
  for (const clean of cleanUp) clean();
  cleanUp = [];
});

export interface Opened {
  readonly excel: FakeExcel;
  readonly workbook: ExcelWorkbook;
  readonly book: FakeBook;
  /** Requests that a piece of work makes. */
  readonly syncs: (work: () => Promise<unknown>) => Promise<number>;
}

/** The contract's workbook in a stand-in for Excel, which takes the place of the globals until the test ends. */
export async function open(options?: FakeExcelOptions): Promise<Opened> {
  const book = FakeBook.of(contractModel);
  const excel = new FakeExcel(book, options);
  cleanUp.push(excel.install());
  const workbook = await ExcelWorkbook.open();
  const syncs = async (work: () => Promise<unknown>): Promise<number> => {
    const before = excel.traffic.syncs;
    await work();
    return excel.traffic.syncs - before;
  };
  return { excel, workbook, book, syncs };
}

/**
 * Gives the tests of a suite a clock of their own, to be called in it: what is told is told however busy the machine is,
 * and "nothing more" is no guess. Returned is what waits until everything that was on its way has been told.
 */
export function ownClock(): () => Promise<void> {
  beforeEach(() => vi.useFakeTimers());
  afterEach(() => vi.useRealTimers());
  return async () => {
    await vi.advanceTimersByTimeAsync(ON_ITS_WAY);
  };
}

/** Longer than Excel's events are gathered, and a tab takes to read. */
const ON_ITS_WAY = 500;
