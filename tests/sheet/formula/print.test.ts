/** Formulas printed from their trees. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseFormula, printFormula, tryFormula, type FormulaNode } from '../../../src/sheet/formula';
import { anyFormula } from './generated';

describe('a formula read and printed', () => {
  it.each([
    ['-2^2', '-2^2'],
    ['-(2^2)', '-(2^2)'],
    ['(1+2)*3-(4-5)', '(1+2)*3-(4-5)'],
    ['2^(3^2)', '2^(3^2)'],
    ['(-1)%', '(-1)%'],
    ['sum( A1 , $B2:c$3 )', 'SUM(A1,$B2:C$3)'],
    ['\'It\'\'s\'!A1:B2&"a ""b"""', '\'It\'\'s\'!A1:B2&"a ""b"""'],
    ['IF(A1,,3)', 'IF(A1,,3)'],
    ['SUM((A1,B2:B3))', 'SUM((A1,B2:B3))'],
    ['SUM(A1:B3 B1:C9)', 'SUM(A1:B3 B1:C9)'],
    ['A1:INDEX(B:$B,3)', 'A1:INDEX(B:$B,3)'],
    ['Jan:Mar!B2+[2]Prices!$A$1', 'Jan:Mar!B2+[2]Prices!$A$1'],
    ['@A1:A9+A1#', '@A1:A9+A1#'],
    ['LAMBDA(x,x+1)(2)', 'LAMBDA(x,x+1)(2)'],
    ['{1,-2;TRUE,#N/A}', '{1,-2;TRUE,#N/A}'],
    ["Parts[[#This Row],[a '] b]]", "Parts[[#This Row],[a '] b]]"],
    ['1:$3', '1:$3'],
  ])('%s', (formula, printed) => expect(printFormula(parseFormula(formula))).toBe(printed));

  it('says the same again', () => {
    let read = 0;
    fc.assert(
      fc.property(anyFormula, (formula) => {
        const tree = tryFormula(formula);
        if (!tree) return;
        read++;
        expect(parseFormula(printFormula(tree)), printFormula(tree)).toEqual(tree);
      }),
      { numRuns: 3000 },
    );
    expect(read).toBeGreaterThan(2000);
  });

  it('says what trees of every shape say', () => {
    const one: FormulaNode = { kind: 'value', value: 1 };
    const { tree } = fc.letrec<{ tree: FormulaNode }>((tie) => ({
      tree: fc.oneof(
        { maxDepth: 5, withCrossShrink: true },
        fc.constant(one),
        fc.constant(parseFormula("'a b'!A1:$B2")),
        fc.record({ kind: fc.constant('sign' as const), negative: fc.boolean(), of: tie('tree') }),
        fc.record({ kind: fc.constant('percent' as const), of: tie('tree') }),
        fc.record({ kind: fc.constant('single' as const), of: tie('tree') }),
        fc.record({
          kind: fc.constant('binary' as const),
          operator: fc.constantFrom('+', '-', '*', '/', '^', '&', '=', '<='),
          left: tie('tree'),
          right: tie('tree'),
        }),
        fc.record({
          kind: fc.constant('call' as const),
          name: fc.constant('SUM'),
          args: fc.array(tie('tree'), { maxLength: 3 }),
        }),
        fc.record({ kind: fc.constant('union' as const), of: fc.array(tie('tree'), { minLength: 2, maxLength: 3 }) }),
      ),
    }));
    fc.assert(
      fc.property(tree, (node) => {
        expect(parseFormula(printFormula(node)), printFormula(node)).toEqual(node);
      }),
      { numRuns: 1000 },
    );
  });
});
