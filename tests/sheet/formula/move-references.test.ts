/** References that follow rows, columns and cells. */
import { describe, expect, it } from 'vitest';
import { moveReferences, type LineEdit, type LinesMove } from '../../../src/sheet/formula';

const edit = (kind: 'insert' | 'delete', axis: 'rows' | 'columns', at: number, count: number): LineEdit => ({
  kind,
  sheet: 'Parts',
  axis,
  at,
  count,
});

describe('rows and columns that come and go', () => {
  it.each([
    ['A1+A3', edit('insert', 'rows', 2, 2), 'A1+A5'],
    ['$A$3+A$3', edit('insert', 'rows', 0, 1), '$A$4+A$4'],
    ['FOREIGN.THING(A3)', edit('insert', 'rows', 0, 1), 'FOREIGN.THING(A4)'],
    ['OTHER( A3 ,', edit('insert', 'rows', 0, 1), 'OTHER( A4 ,'],
    ['"A3"&A3&Sizes[A3]&\'A3 it\'!A3', edit('insert', 'rows', 0, 1), '"A3"&A4&Sizes[A3]&\'A3 it\'!A3'],
    ["Parts!A3+'parts'!B3+Prices!A3", edit('insert', 'rows', 0, 1), 'Parts!A4+parts!B4+Prices!A3'],
    ['SUM(A1:A3)', edit('insert', 'rows', 3, 1), 'SUM(A1:A3)'],
    ['SUM(A1:A3)', edit('insert', 'rows', 2, 1), 'SUM(A1:A4)'],
    ['SUM(A:B)+SUM($2:3)', edit('insert', 'rows', 1, 1), 'SUM(A:B)+SUM($3:4)'],
    ['SUM(A:$B)+SUM(2:3)', edit('insert', 'columns', 1, 2), 'SUM(A:$D)+SUM(2:3)'],
    ['SUM(A1:A1048576)', edit('insert', 'rows', 1, 5), 'SUM(A1:A1048576)'],
    ['A1048576', edit('insert', 'rows', 1, 1), '#REF!'],
    ['A3#+SUM(B3#)', edit('insert', 'rows', 0, 1), 'A4#+SUM(B4#)'],
    ['A3:INDEX(B:B,C3)', edit('insert', 'rows', 0, 1), 'A4:INDEX(B:B,C4)'],
    ['A3', edit('delete', 'rows', 2, 1), '#REF!'],
    ['Parts!A3*2', edit('delete', 'rows', 2, 1), 'Parts!#REF!*2'],
    ['A3#', edit('delete', 'rows', 2, 1), '#REF!'],
    ['SUM(A1:A9)', edit('delete', 'rows', 2, 2), 'SUM(A1:A7)'],
    ['SUM(A3:A9)', edit('delete', 'rows', 0, 4), 'SUM(A1:A5)'],
    ['SUM(A3:A9)', edit('delete', 'rows', 6, 9), 'SUM(A3:A6)'],
    ['SUM(A3:A9)', edit('delete', 'rows', 2, 7), 'SUM(#REF!)'],
    ['SUM(A:A)+B1', edit('delete', 'columns', 0, 1), 'SUM(#REF!)+A1'],
    ['Parts!A3:Parts!B4', edit('insert', 'rows', 0, 1), 'Parts!A4:B5'],
    ['Jan:Mar!A3+[2]Parts!A3+#REF!A3', edit('insert', 'rows', 0, 1), 'Jan:Mar!A3+[2]Parts!A3+#REF!A3'],
    ['LOG10(A3)+A3B+width+1E3', edit('insert', 'rows', 0, 1), 'LOG10(A4)+A3B+width+1E3'],
    ['A3*2', { ...edit('insert', 'rows', 0, 1), within: { from: 1, to: 3 } }, 'A3*2'],
    ['B3+SUM(A3:C3)', { ...edit('insert', 'rows', 0, 1), within: { from: 1, to: 3 } }, 'B4+SUM(A3:C3)'],
  ] as [string, LineEdit, string][])('%s, %o', (formula, change, to) =>
    expect(moveReferences(formula, 'Parts', change)).toBe(to),
  );

  it('bear on a formula of another sheet where it names theirs', () => {
    expect(moveReferences('A3+Parts!A3', 'Design', edit('insert', 'rows', 0, 1))).toBe('A3+Parts!A4');
  });
});

describe('rows that are put in another place', () => {
  /** Lines from 1, as their headers number them: 3 to 4 before 8. */
  const reorder = (first: number, last: number, before: number): LinesMove => ({
    kind: 'reorder',
    sheet: 'Parts',
    axis: 'rows',
    from: first - 1,
    count: last - first + 1,
    to: before - 1,
  });

  it.each([
    ['A3+A4+A5+A7+A8', reorder(3, 4, 8), 'A6+A7+A3+A5+A8'],
    ['A3+$A$7+A8+A2', reorder(7, 8, 3), 'A5+$A$3+A4+A2'],
    ['SUM(A3:A4)', reorder(3, 4, 8), 'SUM(A6:A7)'],
    ['SUM(A2:A9)', reorder(2, 2, 5), 'SUM(A2:A9)'],
    ['SUM(A2:A9)', reorder(9, 9, 5), 'SUM(A2:A9)'],
    ['SUM(A2:A9)', reorder(5, 5, 20), 'SUM(A2:A8)'],
    ['SUM(A2:A9)', reorder(20, 21, 5), 'SUM(A2:A11)'],
    ['SUM(A2:A9)', reorder(9, 10, 20), 'SUM(A2:A8)'],
    ['SUM(A:A)+Design!A3', reorder(3, 4, 8), 'SUM(A:A)+Design!A3'],
  ])('%s, %o', (formula, change, to) => expect(moveReferences(formula, 'Parts', change)).toBe(to));
});

describe('cells that are cut and pasted', () => {
  const move = {
    kind: 'move',
    from: { sheet: 'Parts', row: 0, column: 0, rows: 3, columns: 2 },
    to: { sheet: 'Design', row: 9, column: 3 },
  } as const;

  it.each([
    ['SUM(A1:B3)+$A$1', 'Parts', 'SUM(Design!D10:E12)+Design!$D$10'],
    ['SUM(A1:C3)+C1', 'Parts', 'SUM(A1:C3)+C1'],
    ['Parts!A1+A1', 'Design', 'Design!D10+A1'],
    ['Parts!A1', 'Prices', 'Design!D10'],
  ])('%s on %s', (formula, sheet, to) => expect(moveReferences(formula, sheet, move)).toBe(to));

  it('on their sheet', () => {
    const near = { ...move, to: { sheet: 'Parts', row: 5, column: 0 } };
    expect(moveReferences('A1+Parts!B2#', 'Parts', near)).toBe('A6+Parts!B7#');
  });
});
