/** The calculators that are compared: ours, LibreOffice in one run over a written workbook, and IronCalc. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { columnName, type Cell, type Matrix } from '../../src/sheet';
import { Calculator } from '../../src/calculation';
import { withResults } from '../../src/calculation/results';
import { readWorkbook, writeWorkbook } from '../../src/xlsx';
import { recalculatedByLibreOffice } from '../../tests/helpers/libreoffice';
import { COLUMN, DATA, resultOf, rowOf, workbookOf, type Asked } from './sheet';

export function byTarebook(asked: readonly Asked[]): (Cell | Matrix)[] {
  const model = workbookOf(asked);
  const { results } = new Calculator(model).run();
  const calculated = withResults(model, results).model;
  return asked.map((one, index) => resultOf(calculated, one, index));
}

export async function byLibreOffice(soffice: string, asked: readonly Asked[]): Promise<(Cell | Matrix)[]> {
  const model = readWorkbook(recalculatedByLibreOffice(soffice, await writeWorkbook(workbookOf(asked))));
  return asked.map((one, index) => resultOf(model, one, index));
}

/** Texts, as cells show them: IronCalc gives no others. Only formulas of the plain kind. */
export async function byIronCalc(asked: readonly Asked[]): Promise<(string | undefined)[]> {
  const { default: init, Model } = await import('@ironcalc/wasm');
  const file = createRequire(import.meta.url).resolve('@ironcalc/wasm/wasm_bg.wasm');
  await init({ module_or_path: readFileSync(file) });
  const model = new Model('compare', 'en', 'UTC', 'en');
  model.renameSheet(0, 'Data');
  DATA.forEach((line, row) =>
    line.forEach((value, column) => {
      if (value === null || value === '') return;
      const text =
        typeof value === 'object' ? value.code : typeof value === 'string' ? `'${value}` : String(value).toUpperCase();
      model.setUserInput(0, row + 1, column + 1, text);
    }),
  );
  asked.forEach(({ formula, extent }, index) => {
    if (!extent) model.setUserInput(0, rowOf(index) + 1, COLUMN + 1, `=${formula}`);
  });
  model.evaluate();
  return asked.map(({ extent }, index) =>
    extent ? undefined : model.getFormattedCellValue(0, rowOf(index) + 1, COLUMN + 1),
  );
}

/** Where a formula stands, for messages. */
export const placeName = (index: number): string => `${columnName(COLUMN)}${rowOf(index) + 1}`;
