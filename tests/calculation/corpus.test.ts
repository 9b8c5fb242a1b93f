/**
 * Every function against answers from outside: those that documents print, those that LibreOffice gave when they were
 * stored, and, where LibreOffice is there, invented formulas in one run.
 */
import { describe, expect, it } from 'vitest';
import { CellError, type Cell, type Matrix } from '../../src/sheet';
import { FUNCTIONS } from '../../src/calculation/functions';
import { byLibreOffice, byTarebook } from '../../tools/compare/calculators';
import { AGREED } from '../../tools/compare/corpus/agreed';
import { DOCUMENTED } from '../../tools/compare/corpus/documented';
import { explanation } from '../../tools/compare/differences';
import { Inventor } from '../../tools/compare/generate';
import { alike, written } from '../../tools/compare/same';
import { soffice } from '../helpers/programs';

/** Documents print some six digits. */
function isAsPrinted(ours: Cell | Matrix, printed: Cell): boolean {
  if (typeof ours === 'number' && typeof printed === 'number')
    return Math.abs(ours - printed) <= 2e-6 * Math.max(1, Math.abs(printed));
  if (ours instanceof CellError) return printed instanceof CellError && ours.code === printed.code;
  return ours === printed;
}

describe.each(DOCUMENTED)('$family, as documents print them ($source)', ({ cases }) => {
  const ours = byTarebook(cases.map(([formula]) => ({ formula })));
  it('have the printed answers', () => {
    const wrong = cases.flatMap(([formula, printed], index) =>
      isAsPrinted(ours[index]!, printed) ? [] : [`=${formula}: ${written(ours[index]!)}, printed ${written(printed)}`],
    );
    expect(wrong).toEqual([]);
  });
});

describe('formulas that were stored with LibreOffice’s answers', () => {
  it('give them still', () => {
    const ours = byTarebook(AGREED);
    const wrong = AGREED.flatMap(({ formula, gives }, index) =>
      alike(ours[index]!, gives) ? [] : [`=${formula}: ${written(ours[index]!)}, LibreOffice ${written(gives)}`],
    );
    expect(wrong).toEqual([]);
  });

  it('are of nearly every function', () => {
    const texts = [
      ...AGREED.map(({ formula }) => formula),
      ...DOCUMENTED.flatMap(({ cases }) => cases.map(([text]) => text)),
    ];
    const called = new Set(texts.flatMap((text) => text.match(/[A-Z][A-Z0-9.]*(?=\()/g) ?? []));
    const missing = [...FUNCTIONS.keys()].filter((name) => !called.has(name));
    // The rest gives blocks of cells or another result each time: tests/calculation/cases.ts has what can be held.
    expect(missing.length).toBeLessThan(70);
  });
});

describe.skipIf(!soffice())('500 invented formulas', () => {
  it('give what LibreOffice gives, or a document says otherwise', async () => {
    const inventor = new Inventor(500);
    const asked = [...new Set(Array.from({ length: 500 }, () => inventor.formula()))].map((formula) => ({ formula }));
    const ours = byTarebook(asked);
    const theirs = await byLibreOffice(soffice()!, asked);
    const unexplained = asked.flatMap(({ formula }, index) =>
      alike(ours[index]!, theirs[index]!) || explanation(formula, ours[index]!, theirs[index]!)
        ? []
        : [`=${formula}: ${written(ours[index]!)}, LibreOffice ${written(theirs[index]!)}`],
    );
    expect(unexplained).toEqual([]);
  });
});
