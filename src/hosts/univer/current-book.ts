/** Which of the engine's workbooks is the one that is shown, and that its commands act on. */
import {
  IUniverInstanceService,
  UniverInstanceType,
  type Injector,
  type Nullable,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';

export const currentBook = (injector: Injector): Nullable<EngineWorkbook> =>
  injector.get(IUniverInstanceService).getCurrentUnitOfType<EngineWorkbook>(UniverInstanceType.UNIVER_SHEET);

/** Shows an open workbook, by its id. */
export function showBook(injector: Injector, id: string): void {
  const workbooks = injector.get(IUniverInstanceService);
  workbooks.setCurrentUnitForType(id);
  workbooks.focusUnit(id);
}
