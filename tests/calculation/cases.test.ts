import { describe, expect, it } from 'vitest';
import { CellError, type Cell, type Matrix } from '../../src/sheet';
import { recalculate } from '../../src/calculation';
import { cases, resultOf, workbookOf } from './cases';

/** Errors by code and numbers to 12 digits, so that two ways of computing compare. */
function plain(result: Cell | Matrix): unknown {
  if (Array.isArray(result)) return result.map((line) => line.map(plain));
  if (result instanceof CellError) return result.code;
  return typeof result === 'number' ? Number(result.toPrecision(12)) : (result ?? '');
}

const formulas = cases.map(({ formula }) => formula);

describe('the calculator', () => {
  const { model, kept } = recalculate(workbookOf(formulas));

  it('knows every function of the cases', () => expect(kept).toEqual([]));

  it.each(cases.map((one, index) => ({ ...one, index })))('$formula', ({ gives, index }) => {
    expect(plain(resultOf(model, index))).toEqual(plain(gives));
  });
});
