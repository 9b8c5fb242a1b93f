import type { Command } from 'commander';
import { CellError, fullName, type Cell, type RangeAddress, type Result } from '../sheet';
import { references, tryFormula, type FormulaNode } from '../sheet/formula';
import { EXIT, printResult, shown, shownNumber, Stop } from './terminal';
import { openModel } from './open';
import { unitSign, type Dimension, type UnitSystem } from '../core/quantity';
import { findDefinition, unitsPlace, type Definition } from '../functions';

export function addEvaluate(program: Command): void {
  program
    .command('eval')
    .summary('evaluate a formula and print its value')
    .description(
      'Evaluates one formula, of TARE functions, ordinary ones and array constants, and prints its value; a result of several cells as rows with tabs between.',
    )
    .argument('<formula>', "as it is typed into a cell, in quotes: '=TARE.AREA.RECT(12,4)'")
    .option('-i, --in <file>', 'a workbook whose cells, tables and names the formula can use')
    .option('--json', 'print JSON: value, unit and dimension where they are known, or the error')
    .addHelpText(
      'after',
      `
Examples:
  tarebook eval '=TARE.AREA.RECT(144,48)'
  tarebook eval '=TARE.AREA.RECT({12;10},4)'
  tarebook eval '=SUM(Parts!F2:F40)' --in wing.xlsx
  tarebook eval '=TARE.AREA.RECT(144,48)' --json
An error value goes to stderr with its message, and the exit code is 1.`,
    )
    .action(async (formula: string, options: { in?: string; json?: boolean }) => {
      const model = options.in === undefined ? undefined : await openModel(options.in);
      const { evaluation } = await import('../calculation');
      const { result, restsOn } = evaluation(formula, model);
      if (options.json) {
        process.stdout.write(`${JSON.stringify(evaluatedJson({ formula, result, restsOn }), null, 2)}\n`);
        if (hasError(result)) throw new Stop(EXIT.findings, '');
        return;
      }
      if (!model && namesCells(formula))
        process.stderr.write('No workbook is given, so that its cells are blank. Name one with --in FILE.\n');
      else if (restsOn)
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

const hasError = (result: Result): boolean =>
  Array.isArray(result) ? result.flat().some((cell) => cell instanceof CellError) : result instanceof CellError;

const namesCells = (formula: string): boolean =>
  references(formula.trim().replace(/^=/, '')).some(({ kind }) => kind === 'range' || kind === 'spill');

const describe = ({ code, message }: CellError): string => (message ? `${code} ${message}` : code);

export interface Evaluated {
  readonly formula: string;
  readonly result: Result;
  /** The cell that was not recalculated and on which the result rests. */
  readonly restsOn: Pick<RangeAddress, 'sheet' | 'row' | 'column'> | undefined;
}

/** Value or error, with unit and dimension where the formula is a call of one TARE function. */
function evaluatedJson({ formula, result, restsOn }: Evaluated): object {
  const text = formula.trim().replace(/^=/, '');
  return {
    formula: `=${text}`,
    ...(result instanceof CellError
      ? errorOf(result)
      : { value: Array.isArray(result) ? result.map((row) => row.map(plain)) : plain(result) }),
    ...measures(tryFormula(text)),
    ...(restsOn ? { notRecalculated: fullName({ ...restsOn, rows: 1, columns: 1 }) } : {}),
  };
}

const errorOf = ({ code, message }: CellError): object => ({ error: { code, message } });

function plain(cell: Cell): unknown {
  if (cell instanceof CellError) return errorOf(cell);
  return typeof cell === 'number' ? shownNumber(cell) : cell;
}

function measures(node: FormulaNode | undefined): object {
  const definition = node?.kind === 'call' ? findOwn(node.name) : undefined;
  if (node?.kind !== 'call' || !definition) return {};
  const units = unitsOf(definition, node.args);
  if (!units) return {};
  const { result } = definition;
  if (result.kind === 'table')
    return { columns: result.columns.map(({ name, dimension }) => ({ name, ...measure(dimension, units) })) };
  return measure(result.dimension, units);
}

const findOwn = (name: string): Definition | undefined => (/^TARE\./i.test(name) ? findDefinition(name) : undefined);

const measure = (dimension: Dimension | undefined, units: UnitSystem): object =>
  dimension ? { dimension, unit: unitSign(dimension, units) } : {};

/** The system that a call asks for; undefined where it is computed. */
function unitsOf({ parameters }: Definition, args: readonly (FormulaNode | undefined)[]): UnitSystem | undefined {
  const given = args[unitsPlace(parameters)];
  if (given === undefined) return 'in-lb';
  if (given.kind !== 'value') return undefined;
  return given.value === 'mm-kg' || given.value === 'in-lb' ? given.value : undefined;
}
