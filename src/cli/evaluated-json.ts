/** A formula's result for scripts. */
import { unitSign, type Dimension, type UnitSystem } from '../core/quantity';
import { findDefinition, unitsPlace, type Definition } from '../functions';
import { CellError, fullName, type Cell, type RangeAddress, type Result } from '../sheet';
import { tryFormula, type FormulaNode } from '../sheet/formula';
import { shownNumber } from './terminal';

export interface Evaluated {
  readonly formula: string;
  readonly result: Result;
  /** The cell that was not recalculated and on which the result rests. */
  readonly restsOn: Pick<RangeAddress, 'sheet' | 'row' | 'column'> | undefined;
}

/** Value or error, with unit and dimension where the formula is a call of one TARE function. */
export function evaluatedJson({ formula, result, restsOn }: Evaluated): object {
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
