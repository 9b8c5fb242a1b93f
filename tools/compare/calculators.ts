/** The calculators that are compared: ours, LibreOffice in one run over a written workbook, and IronCalc. */
import { spawnSync } from 'node:child_process';
import { columnName, type Cell, type Matrix } from '../../src/sheet';
import { Calculator } from '../../src/calculation';
import { withResults } from '../../src/calculation/results';
import { readWorkbook, writeWorkbook } from '../../src/xlsx';
import { recalculatedByLibreOffice } from '../../tests/helpers/libreoffice';
import { COLUMN, resultOf, rowOf, workbookOf, type Asked } from './sheet';

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

/** A formula takes IronCalc microseconds; one on which it never ends is passed over after this many ms. */
const PATIENCE = 10_000;

/** Texts, as cells show them: IronCalc gives no others. Only formulas of the plain kind; undefined where it gives no answer. */
export function byIronCalc(asked: readonly Asked[]): (string | undefined)[] {
  const answers: (string | undefined)[] = [];
  while (answers.length < asked.length) {
    const rest = asked.slice(answers.length);
    const { stdout, stderr, status, error } = spawnSync(
      process.execPath,
      ['tools/run-ts.mjs', 'tools/compare/ironcalc.ts'],
      {
        input: JSON.stringify(rest.map(({ formula }) => formula)),
        encoding: 'utf8',
        timeout: PATIENCE + rest.length,
        maxBuffer: 2 ** 26,
      },
    );
    const lines = stdout.split('\n').filter((line) => line !== '');
    if (lines.length === 0 && !error) throw new Error(`IronCalc: ${stderr}`);
    answers.push(...lines.map((line) => JSON.parse(line) as string));
    if (status !== 0 && answers.length < asked.length) answers.push(undefined);
  }
  return answers;
}

/** Where a formula stands, for messages. */
export const placeName = (index: number): string => `${columnName(COLUMN)}${rowOf(index) + 1}`;
