/** Every example of every definition gives what it says: the reference cannot show a wrong number. */
import { describe, expect, it } from 'vitest';
import { call, catalogue, exampleFormula } from '../../src/functions';
import type { Cell, Matrix, Result } from '../../src/sheet';

function expectCell(got: Cell | undefined, wanted: Cell | undefined, within: number | undefined, where: string): void {
  if (typeof wanted !== 'number') {
    expect(got, where).toEqual(wanted);
    return;
  }
  expect(typeof got, `${where}: ${String(got)}`).toBe('number');
  expect(Math.abs((got as number) - wanted), `${where}: got ${String(got)}, wanted ${wanted}`).toBeLessThanOrEqual(
    within ?? Math.max(Math.abs(wanted) * 1e-9, 1e-12),
  );
}

function expectResult(got: Result, wanted: Cell | Matrix, within: number | undefined): void {
  if (!Array.isArray(wanted)) {
    expectCell(Array.isArray(got) ? got[0]?.[0] : got, wanted, within, 'value');
    return;
  }
  expect(Array.isArray(got), `spills: ${String(got)}`).toBe(true);
  const rows = got as Matrix;
  expect(rows.map((row) => row.length)).toEqual(wanted.map((row) => row.length));
  wanted.forEach((row, r) =>
    row.forEach((cell, c) => expectCell(rows[r]![c], cell, within, `row ${r + 1}, column ${c + 1}`)),
  );
}

describe.each(catalogue)('$name', (definition) => {
  it.each(definition.examples.map((example) => ({ example, formula: exampleFormula(definition, example) })))(
    '$formula',
    ({ example }) => {
      expectResult(call(definition, example.args), example.gives, example.within);
    },
  );
});
