/** The defined names of a workbook. */
import type { Injector, Workbook as EngineWorkbook } from '@univerjs/core';
import { IDefinedNamesService } from '@univerjs/engine-formula';
import type { NameModel } from '../../sheet';

export const namesOf = (injector: Injector, book: EngineWorkbook): NameModel[] =>
  Object.values(injector.get(IDefinedNamesService).getDefinedNameMap(book.getUnitId()) ?? {}).map(
    ({ name, formulaOrRefString, localSheetId }): NameModel => {
      const scope = localSheetId ? book.getSheetBySheetId(localSheetId)?.getName() : undefined;
      return { name, refersTo: formulaOrRefString.replace(/^=/, ''), ...(scope === undefined ? {} : { scope }) };
    },
  );
