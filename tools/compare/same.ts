/** When two calculators gave the same. */
import { CellError, type Cell, type Matrix } from '../../src/sheet';

/** Flags are numbers to LibreOffice, and it has one error for most that cannot be computed. */
export function alike(a: Cell | Matrix, b: Cell | Matrix): boolean {
  if (Array.isArray(a) || Array.isArray(b)) {
    const left = Array.isArray(a) ? a : [[a]];
    const right = Array.isArray(b) ? b : [[b]];
    return (
      left.length === right.length &&
      left.every(
        (line, r) => line.length === right[r]!.length && line.every((cell, c) => alikeCells(cell, right[r]![c]!)),
      )
    );
  }
  return alikeCells(a, b);
}

function alikeCells(a: Cell, b: Cell): boolean {
  if (a instanceof CellError || b instanceof CellError)
    return a instanceof CellError && b instanceof CellError && alikeErrors(a, b);
  if (isText(a) || isText(b)) return (a ?? '') === (b ?? '');
  return alikeNumbers(Number(a), Number(b));
}

const isText = (cell: Cell): boolean => typeof cell === 'string';
/** LibreOffice writes its own faults of arguments (Err:502 and its like) into a file as #VALUE! or #NUM!, whatever a function documents. */
const alikeErrors = (a: CellError, b: CellError): boolean =>
  a.code === b.code || b.code === '#VALUE!' || b.code === '#NUM!';

/** To 10 digits, or both nothing but dust. */
function alikeNumbers(a: number, b: number): boolean {
  const apart = Math.abs(a - b);
  return apart <= 1e-10 * Math.max(Math.abs(a), Math.abs(b)) || apart < 1e-12;
}

export const written = (value: Cell | Matrix): string =>
  Array.isArray(value)
    ? `{${value.map((line) => line.map(written).join(',')).join(';')}}`
    : value instanceof CellError
      ? value.code
      : typeof value === 'string'
        ? JSON.stringify(value)
        : typeof value === 'boolean'
          ? String(value).toUpperCase()
          : String(value);
