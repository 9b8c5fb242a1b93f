import type { Command } from 'commander';
import { CellError, fullName } from '../sheet';
import { EXIT, Stop } from './exit';
import { openModel } from './open';
import { printResult } from './print';
import { shown } from './terminal';

export function addEvaluate(program: Command): void {
  program
    .command('eval')
    .summary('evaluate a formula and print its value')
    .description(
      'Evaluates one formula, of TARE functions, ordinary ones and array constants, and prints its value; a result of several cells as rows with tabs between.',
    )
    .argument('<formula>', "as it is typed into a cell, in quotes: '=TARE.AREA.RECT(12,4)'")
    .option('-i, --in <file>', 'a workbook whose cells, tables and names the formula can use')
    .addHelpText(
      'after',
      `
Examples:
  tarebook eval '=TARE.AREA.RECT(144,48)'
  tarebook eval '=TARE.AREA.RECT({12;10},4)'
  tarebook eval '=SUM(Parts!F2:F40)' --in wing.xlsx
An error value goes to stderr with its message, and the exit code is 1.`,
    )
    .action(async (formula: string, options: { in?: string }) => {
      const model = options.in === undefined ? undefined : await openModel(options.in);
      const { evaluation } = await import('../calculation');
      const { result, restsOn } = evaluation(formula, model);
      if (restsOn)
        process.stderr.write(
          `${shown(`Not recalculated: the result rests on ${fullName({ ...restsOn, rows: 1, columns: 1 })}, which keeps the file's value`)}\n`,
        );
      if (result instanceof CellError) throw new Stop(EXIT.findings, describe(result));
      process.stdout.write(`${shown(printResult(result))}\n`);
      const errors = Array.isArray(result)
        ? result.flatMap((row, r) =>
            row.flatMap((cell, c) =>
              cell instanceof CellError ? [`row ${r + 1}, column ${c + 1}: ${describe(cell)}`] : [],
            ),
          )
        : [];
      if (errors.length) throw new Stop(EXIT.findings, errors.join('\n'));
    });
}

const describe = ({ code, message }: CellError): string => (message ? `${code} ${message}` : code);
