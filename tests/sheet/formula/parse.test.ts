/** What a formula that cannot be read is told. */
import { describe, expect, it } from 'vitest';
import { FormulaError, parseFormula } from '../../../src/sheet/formula';

const message = (formula: string): string => {
  try {
    parseFormula(formula);
  } catch (error) {
    if (error instanceof FormulaError) return error.message;
    throw error;
  }
  return 'read';
};

describe('a formula that cannot be read says what to type', () => {
  it.each([
    ['SUM(A1', 'A bracket is missing: add ) at the end.'],
    ['SUM(', 'A bracket is missing: add ) at the end.'],
    ['(1+2', 'A bracket is missing: add ) at the end.'],
    ['IF(A1>1,SUM(B1:B3,2', '2 brackets are missing: add )) at the end.'],
    ['SUM({1,2', '2 brackets are missing: add }) at the end.'],
    ['SUM(M6]', '"]" closes nothing here. Type ) in its place.'],
    ['SUM(M6}', '"}" closes nothing here. Type ) in its place.'],
    ['SUM(1))', 'There is one bracket too many: delete the ) at the end.'],
    ['SUM(1))*2', 'There is one bracket too many: delete the ) before "*2".'],
    ['Parts[a]]', 'There is one bracket too many: delete the ] at the end.'],
    ['"Left wing&A1', 'A text has no end: add " where it ends.'],
    ["'Left wing!A1", "The name of a sheet has no end: add '! behind it."],
    ['SUM(Parts[width', "A table's bracket is missing: add ] where the column's name ends."],
    ['', 'The formula is empty. Type a value, a cell or a function.'],
    ['1+', 'Something is missing after "+".'],
    ['SUM(1+)', 'Something is missing after "+".'],
    ['*2', '"*" cannot stand at the start.'],
    ['2**3', '"**": between these a value is missing.'],
    ['2 3', 'Between "2 " and "3" something is missing: + - * / & or a comma.'],
    ['A1"x"', 'Between "A1" and ""x"" something is missing: + - * / & or a comma.'],
    ['SUM (A1)', '"SUM" and its bracket stand apart: delete the space between them.'],
    ['2×3', 'A spreadsheet does not know "×". Type * for it.'],
    ['“a”', 'A spreadsheet does not know "“". Type " for it.'],
    ['Parts!', 'After "Parts!" a cell, a range or a name is missing.'],
    ['{1,A1}', '"A1" cannot stand between { and }. Type numbers, texts, TRUE or FALSE there.'],
    ['{1,2;3}', 'The rows between { and } differ in length. Give each as many values as the first.'],
    ['A1;B1', 'Type a comma between "A1" and "B1", not ;.'],
    ['SUM(A1;B1)', 'Type a comma between "A1" and "B1", not ;.'],
  ])('%s', (formula, told) => expect(message(formula)).toBe(told));

  it('and where', () => {
    expect(() => parseFormula('SUM(1))*2')).toThrow(expect.objectContaining({ at: 6 }) as Error);
  });
});
