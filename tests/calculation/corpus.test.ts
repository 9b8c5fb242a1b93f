/**
 * Every function against answers from outside: those that documents print, those that LibreOffice gave when they were
 * stored, and, where LibreOffice is there, invented formulas in one run.
 */
import { describe, expect, it } from 'vitest';
import { CellError, type Cell, type Matrix } from '../../src/sheet';
import { Calculator } from '../../src/calculation';
import { FUNCTIONS } from '../../src/calculation/functions';
import { byLibreOffice, byTarebook } from '../../tools/compare/calculators';
import { AGREED } from '../../tools/compare/corpus/agreed';
import { DOCUMENTED } from '../../tools/compare/corpus/documented';
import { OWN_SHEET, WRITTEN, writtenBook } from '../../tools/compare/corpus/written';
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

/** Of errors the very same one: LibreOffice has one for most. */
const isStored = (ours: Cell | Matrix, gives: Cell): boolean =>
  gives instanceof CellError ? ours instanceof CellError && ours.code === gives.code : alike(ours, gives);

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

describe('formulas written by hand', () => {
  it('give what LibreOffice gives, or what a document says', () => {
    const model = writtenBook();
    const { results } = new Calculator(model).run();
    const sheet = model.sheets.findIndex(({ name }) => name === OWN_SHEET);
    const ours = new Map(results.flatMap((one) => (one.sheet === sheet ? [[one.row, one.result] as const] : [])));
    const wrong = WRITTEN.flatMap(({ formula, gives }, row) =>
      isStored(ours.get(row) ?? null, gives)
        ? []
        : [`=${formula}: ${written(ours.get(row) ?? null)}, stored ${written(gives)}`],
    );
    expect(wrong).toEqual([]);
    expect(WRITTEN.length).toBeGreaterThan(550);
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
