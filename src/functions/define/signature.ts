import { CellError, type Cell, type Matrix } from '../../sheet/cell';
import { NAMESPACE, type Definition, type Example } from './definition';

/** "TARE.WEIGHT.SHEET(area, thickness, material, [quantity], [units])" */
export function signature(definition: Definition): string {
  const names = definition.parameters.map((parameter) => (parameter.optional ? `[${parameter.name}]` : parameter.name));
  return `${NAMESPACE}.${definition.name}(${names.join(', ')})`;
}

/** The example as it would be typed: =TARE.AREA.RECT(12, 4) */
export function exampleFormula(definition: Definition, example: Example): string {
  return `=${NAMESPACE}.${definition.name}(${example.args.map(literal).join(', ')})`;
}

function literal(argument: Cell | Matrix): string {
  if (Array.isArray(argument))
    return `{${argument.map((row) => row.map((cell) => (cell === null ? '""' : literal(cell))).join(',')).join(';')}}`;
  if (argument === null) return '';
  if (typeof argument === 'string') return `"${argument.replaceAll('"', '""')}"`;
  if (typeof argument === 'boolean') return argument ? 'TRUE' : 'FALSE';
  if (argument instanceof CellError) return argument.code;
  return String(argument);
}
