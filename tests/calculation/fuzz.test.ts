/** Any formula, well-formed or not: a value or a typed error, never a throw, a hang or a number that is none. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CellError, type Cell } from '../../src/sheet';
import { Calculator } from '../../src/calculation';
import { FUNCTIONS } from '../../src/calculation/functions';
import { parseFormula, FormulaError } from '../../src/sheet/formula';
import { workbookOf } from './cases';

const RUNS = Number(process.env['FUZZ_RUNS'] ?? 2000);

const literal = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e9, max: 1e9 }).map((number) => String(number)),
  fc.constantFrom(
    '0',
    '-1',
    '1e308',
    '0.1',
    'TRUE',
    'FALSE',
    '""',
    '"rib"',
    '"12"',
    '">1"',
    '"r*"',
    '#N/A',
    '{1,2;3,4}',
    '{"a";1;TRUE}',
    '',
  ),
  fc.constantFrom(
    'A1',
    'A1:A3',
    'A1:C5',
    'D1:D5',
    'A6',
    'A:A',
    '2:2',
    'Z99',
    'Sizes',
    'Sizes[one]',
    'Total',
    'Nothing',
    'A1#',
  ),
);
const names = [...FUNCTIONS.keys()];
const formula = fc.letrec<{ node: string; call: string; operation: string }>((tie) => ({
  node: fc.oneof({ depthSize: 'small', withCrossShrink: true }, literal, tie('call'), tie('operation')),
  call: fc
    .tuple(fc.constantFrom(...names), fc.array(tie('node'), { maxLength: 4 }))
    .map(([name, args]) => `${name}(${args.join(',')})`),
  operation: fc
    .tuple(tie('node'), fc.constantFrom('+', '-', '*', '/', '^', '&', '=', '<>', '<', '>='), tie('node'))
    .map(([a, operator, b]) => `(${a || '1'}${operator}${b || '1'})`),
})).node;

function isTyped(cell: Cell | undefined): boolean {
  if (typeof cell === 'number') return Number.isFinite(cell) && !Object.is(cell, -0);
  return (
    cell === null ||
    cell === undefined ||
    typeof cell === 'string' ||
    typeof cell === 'boolean' ||
    cell instanceof CellError
  );
}

describe('any formula', () => {
  it('gives a value or a typed error', () => {
    fc.assert(
      fc.property(
        formula.filter((text) => text !== ''),
        (text) => {
          const calculator = new Calculator(workbookOf([text]));
          for (const { result } of calculator.run().results) {
            if (Array.isArray(result)) expect(result.flat().every(isTyped)).toBe(true);
            else expect(isTyped(result)).toBe(true);
          }
        },
      ),
      { numRuns: RUNS },
    );
  });

  it('that is no formula is refused in words', () => {
    const noise = fc.oneof(
      fc.string({ maxLength: 30 }),
      fc
        .array(
          fc.constantFrom(
            '(',
            ')',
            '{',
            '}',
            '[',
            ']',
            ',',
            ';',
            ':',
            '!',
            '#',
            '"',
            "'",
            '@',
            '%',
            '+',
            '&',
            '=',
            'A1',
            'SUM(',
            '1',
            '1e',
            '$',
            ' ',
          ),
          { maxLength: 12 },
        )
        .map((list) => list.join('')),
    );
    fc.assert(
      fc.property(noise, (text) => {
        try {
          parseFormula(text);
        } catch (error) {
          expect(error).toBeInstanceOf(FormulaError);
          expect((error as Error).message).toMatch(/^["A-Z\d].*\.$/su);
        }
      }),
      { numRuns: RUNS * 2 },
    );
  });
});
