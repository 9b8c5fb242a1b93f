/**
 * LET, LAMBDA and the functions that call one; unions and intersections. Sources: Microsoft, the page of each function,
 * its examples (MAP, REDUCE, SCAN, BYROW, BYCOL, MAKEARRAY, LAMBDA, LET), where one is named; else worked out by hand.
 */
import { describe, expect, it } from 'vitest';
import { evaluate, recalculate } from '../../src/calculation';
import { CellError, type Cell, type CellModel, type Matrix, type WorkbookModel } from '../../src/sheet';

const NAMES: readonly (readonly [name: string, refersTo: string])[] = [
  // Microsoft, page on LAMBDA, examples 1 to 3.
  ['ToCelsius', 'LAMBDA(temp,(5/9)*(temp-32))'],
  ['Hypotenuse', 'LAMBDA(a,b,SQRT((a^2+b^2)))'],
  ['CountWords', 'LAMBDA(text,LEN(TRIM(text))-LEN(SUBSTITUTE(TRIM(text)," ",""))+1)'],
  ['Factorial', 'LAMBDA(n,IF(n<2,1,n*Factorial(n-1)))'],
  ['IsEvenBy', 'LAMBDA(n,IF(n=0,TRUE,IsOddBy(n-1)))'],
  ['IsOddBy', 'LAMBDA(n,IF(n=0,FALSE,IsEvenBy(n-1)))'],
  ['Endless', 'LAMBDA(n,Endless(n+1))'],
  ['Grow', 'LAMBDA(value,[rate],value*(1+IF(ISOMITTED(rate),0.1,rate)))'],
  ['Circle', 'Circle+1'],
  ['Rate', 'Data!$A$1'],
  ['Median', 'LAMBDA(r,MIN(r))'],
  ['Image', 'LAMBDA(r,MIN(r))'],
];

/** A1:C2 holds 1 to 6, A4:C5 a to f. */
const BOOK: WorkbookModel = {
  styles: [],
  names: NAMES.map(([name, refersTo]) => ({ name, refersTo })),
  sheets: [
    {
      name: 'Data',
      tables: [],
      cells: [
        [{ value: 1 }, { value: 2 }, { value: 3 }],
        [{ value: 4 }, { value: 5 }, { value: 6 }],
        [],
        [{ value: 'a' }, { value: 'b' }, { value: 'c' }],
        [{ value: 'd' }, { value: 'e' }, { value: 'f' }],
      ],
    },
    { name: 'Own', tables: [], cells: [] },
  ],
};

function gives(formula: string): unknown {
  const sheets = BOOK.sheets.map((sheet) =>
    sheet.name === 'Own' ? { ...sheet, cells: [[{ value: null, formula }]] as CellModel[][] } : sheet,
  );
  const { cells } = recalculate({ ...BOOK, sheets }).model.sheets[1]!;
  const { value = null, spill } = cells[0]![0]!;
  if (!spill || spill.rows * spill.columns === 1) return plain(value);
  return Array.from({ length: spill.rows }, (_line, r) =>
    Array.from({ length: spill.columns }, (_cell, c) => plain(cells[r]?.[c]?.value ?? null)),
  );
}

const plain = (cell: Cell): unknown =>
  cell instanceof CellError ? cell.code : typeof cell === 'number' ? Number(cell.toPrecision(12)) : cell;

describe.each<[family: string, cases: readonly (readonly [string, unknown])[]]>([
  [
    // Microsoft, "New aggregation functions in Excel: GROUPBY and PIVOTBY": BYROW(array,SUM) is BYROW(array,LAMBDA(x,SUM(x))).
    'functions by their bare names',
    [
      ['BYROW(Data!A1:C2,SUM)', [[6], [15]]],
      ['BYCOL(Data!A1:C2,max)', [[4, 5, 6]]],
      [
        'MAP(Data!A1:C2,SQRT)',
        [
          [1, 1.41421356237, 1.73205080757],
          [2, 2.2360679775, 2.44948974278],
        ],
      ],
      ['REDUCE(0,Data!A1:C2,SUM)', 21],
      ['SCAN(1,Data!A1:C1,PRODUCT)', [[1, 2, 6]]],
      ['MAP(Data!A1:C1,Data!A2:C2,POWER)', [[1, 32, 729]]],
      [
        'MAKEARRAY(2,2,SUM)',
        [
          [2, 3],
          [3, 4],
        ],
      ],
      ['MAP(Data!A4:C4,UPPER)', [['A', 'B', 'C']]],
      ['MAP(Data!A1:C1,ROW)', [[1, 1, 1]]],
      ['LET(f,MAX,f(3,7,5))', 7],
      ['LAMBDA(f,x,f(x))(ABS,-3)', 3],
      ['MAP(Data!A1:C1,Data!A2:C2,TARE.AREA.RECT)', [[4, 10, 18]]],
      ['MAP(Data!A1:C1,TARE.AREA.CIRCLE)', [[0.785398163397, 3.14159265359, 7.06858347058]]],
      // A name of the workbook and of a LET comes first: Rate is a cell here.
      ['LET(sum,5,sum+1)', 6],
      ['Rate+1', 2],
      // A name of the workbook comes before a function that is handed on, and the function where it is called or marked.
      ['BYROW(Data!A1:C2,Median)', [[1], [4]]],
      ['BYROW(Data!A1:C2,_xleta.MEDIAN)', [[2], [5]]],
      ['MEDIAN(Data!A1:C2)', 3.5],
      ['BYROW(Data!A1:C2,Image)', [[1], [4]]],
      // More or fewer values than the function takes; no function at all; no such function.
      ['MAP(Data!A1:C1,PI)', '#VALUE!'],
      ['BYROW(Data!A1:C2,POWER)', '#VALUE!'],
      ['SUM', '#CALC!'],
    ],
  ],
  [
    'LET',
    [
      // Microsoft, page on LET, example 1.
      ['LET(x,5,SUM(x,1))', 6],
      // Microsoft 365 blog, "Announcing LET": LET(total, SUM(A1:A10), total * 3).
      ['LET(total,SUM(Data!A1:C2),total*3)', 63],
      ['LET(x,10,y,5,x+y)', 15],
      ['LET(x,1,y,x+1,x,10,x+y)', 12],
      ['LET(x,1,LET(x,2,x)+x)', 3],
      ['LET(x,Data!A1:C2,ROWS(x)*COLUMNS(x))', 6],
      ['LET(x,Data!A1:C1,x*2)', [[2, 4, 6]]],
      ['LET(Rate,7,Rate)+Rate', 8],
      ['LET(from,Data!A1,SUM(Data!C2:from))', 21],
      ['LET(from,Data!A1,SUM(OFFSET(from,0,0,2,2)))', 12],
      ['LET(x,1/0,IFERROR(x,"none"))', 'none'],
      ['LET(x,,x+1)', 1],
      ['LET(f,LAMBDA(a,a*2),f(3))', 6],
    ],
  ],
  [
    'LAMBDA',
    [
      // Microsoft, page on LAMBDA: LAMBDA(number, number + 1)(1) is 2; one that is not called is #CALC!.
      ['LAMBDA(number,number+1)(1)', 2],
      ['LAMBDA(x,y,x*y)', '#CALC!'],
      ['ToCelsius(104)', 40],
      ['Hypotenuse(3,4)', 5],
      ['Hypotenuse(9,40)', 41],
      ['CountWords("Something wicked this way comes.")', 5],
      ['CountWords("A quick brown fox jumped over the lazy dog.")', 9],
      ['Hypotenuse(3)', '#VALUE!'],
      ['Hypotenuse(3,4,5)', '#VALUE!'],
      ['Factorial(5)', 120],
      ['IsEvenBy(10)', true],
      ['Endless(1)', '#NUM!'],
      ['Circle', '#REF!'],
      ['Grow(100)', 110],
      ['Grow(100,0.5)', 150],
      ['Grow(100,)', 110],
      ['LAMBDA(x,[y],IF(ISOMITTED(y),"none",x&y))(1)', 'none'],
      ['LAMBDA(x,[y],IF(ISOMITTED(y),"none",x&y))(1,2)', '12'],
      ['LAMBDA(x,LAMBDA(y,x-y))(10)(3)', 7],
      ['LAMBDA(x,x)(Data!A1:C1)', [[1, 2, 3]]],
      ['Rate(1)', '#VALUE!'],
    ],
  ],
  [
    'MAP, REDUCE, SCAN, BYROW, BYCOL, MAKEARRAY',
    [
      // Microsoft, page on MAP, example 1.
      [
        'MAP(Data!A1:C2,LAMBDA(a,IF(a>4,a*a,a)))',
        [
          [1, 2, 3],
          [4, 25, 36],
        ],
      ],
      ['MAP(Data!A1:C1,Data!A2:C2,LAMBDA(a,b,AND(a>1,b>4)))', [[false, true, true]]],
      // Microsoft, page on REDUCE, example 1 (sum of the squares).
      ['REDUCE(,Data!A1:C2,LAMBDA(a,b,a+b^2))', 91],
      ['REDUCE(1,Data!A1:C2,LAMBDA(a,b,IF(b>4,a*b,a)))', 30],
      ['REDUCE(0,Data!A1:C2,LAMBDA(a,n,IF(ISEVEN(n),1+a,a)))', 3],
      ['REDUCE(Data!A1:C1,{10,20},LAMBDA(a,n,a+n))', [[31, 32, 33]]],
      // Microsoft, page on SCAN, examples 1 (factorials) and 2.
      [
        'SCAN(1,Data!A1:C2,LAMBDA(a,b,a*b))',
        [
          [1, 2, 6],
          [24, 120, 720],
        ],
      ],
      [
        'SCAN("",Data!A4:C5,LAMBDA(a,b,a&b))',
        [
          ['a', 'ab', 'abc'],
          ['abcd', 'abcde', 'abcdef'],
        ],
      ],
      // Microsoft, pages on BYROW and BYCOL, examples 1 and 2.
      ['BYROW(Data!A1:C2,LAMBDA(array,MAX(array)))', [[3], [6]]],
      ['BYCOL(Data!A1:C2,LAMBDA(array,MAX(array)))', [[4, 5, 6]]],
      ['BYROW(Data!A1:C2,LAMBDA(array,SUMSQ(array)))', [[14], [77]]],
      // Microsoft, page on MAKEARRAY, example 1 (a multiplication table).
      [
        'MAKEARRAY(2,3,LAMBDA(r,c,r*c))',
        [
          [1, 2, 3],
          [2, 4, 6],
        ],
      ],
      // Each page: an invalid LAMBDA or a wrong number of parameters is #VALUE!; MAKEARRAY's sizes below 1, too.
      ['MAP(Data!A1:C2,LAMBDA(a,b,a))', '#VALUE!'],
      ['SCAN(1,Data!A1:C2,LAMBDA(a,a))', '#VALUE!'],
      ['BYROW(Data!A1:C2,5)', '#CALC!'],
      ['MAKEARRAY(0,3,LAMBDA(r,c,r))', '#VALUE!'],
      // A block of blocks is #CALC!.
      ['BYROW(Data!A1:C2,LAMBDA(r,r*2))', [['#CALC!'], ['#CALC!']]],
      ['SUM(MAP(Data!A1:C2,LAMBDA(x,SUBTOTAL(9,x))))', 21],
      ['BYROW(Data!A1:C2,LAMBDA(r,COUNTIF(r,">2")))', [[1], [3]]],
      ['BYROW(Data!A1:C2*10,LAMBDA(r,SUM(r)))', [[60], [150]]],
      ['LET(k,10,MAP({1,2},LAMBDA(x,x*k)))', [[10, 20]]],
      ['MAP({1,2},LAMBDA(x,Factorial(x+2)))', [[6, 24]]],
      ['SUM(BYCOL(Data!A1:C2,LAMBDA(c,REDUCE(0,c,LAMBDA(a,x,a+x)))))', 21],
    ],
  ],
  [
    'unions and intersections',
    [
      // ECMA-376 part 1, 18.17.2.2: reference operators; Microsoft, pages on AREAS and INDEX (reference form).
      ['SUM((Data!A1:A2,Data!C1:C2))', 14],
      ['SUM((Data!A1:B2,Data!B1:C2))', 28],
      ['AREAS((Data!A1:A2,Data!C1:C2,Data!B1))', 3],
      ['INDEX((Data!A1:A2,Data!C1:C2),2,1,2)', 6],
      ['INDEX((Data!A1:A2,Data!C1:C2),2,1,3)', '#REF!'],
      ['LARGE((Data!A1:A2,Data!C1:C2),2)', 4],
      ['RANK(3,(Data!A1:A2,Data!C1:C2))', 3],
      ['SUBTOTAL(9,(Data!A1:A2,Data!C1:C2))', 14],
      ['COUNT((Data!A1:A2,Data!C1:C2))', 4],
      ['ISREF((Data!A1,Data!C1))', true],
      ['(Data!A1,Data!C1)', '#VALUE!'],
      ['SUM(Data!A1:B2 Data!B1:C2)', 7],
      ['Data!A1:C1 Data!B1:B2', 2],
      ['Data!A1:A2 Data!C1:C2', '#NULL!'],
      ['SUM((Data!A1:C1,Data!A2:C2) Data!B1:B2)', 7],
    ],
  ],
])('%s', (_family, cases) => {
  it.each(cases)('=%s', (formula, expected) => expect(gives(formula)).toEqual(expected));
});

describe('what is wrong with a LET or LAMBDA', () => {
  it.each([
    ['LET(5,1,2)', /LET takes a name and its value in turn/],
    ['LET(x,1)', /LET ends with what is computed/],
    ['LET(x,1,y,2)', /LET ends with what is computed/],
    ['LAMBDA(x,5,x)', /LAMBDA takes names/],
    ['LAMBDA([x],y,x)', /in brackets come behind/],
  ])('=%s says so', (formula, message) => {
    const result = evaluate(formula) as CellError | Matrix;
    expect(result).toBeInstanceOf(CellError);
    expect((result as CellError).message).toMatch(message);
  });
});

describe('the order of what a LAMBDA reads', () => {
  it('is found though the formula stands above', () => {
    const cell = (formula: string): CellModel => ({ value: null, formula });
    const { model } = recalculate({
      styles: [],
      names: [{ name: 'Twice', refersTo: 'LAMBDA(x,x*2+Parts!$B$4)' }],
      sheets: [
        {
          name: 'Parts',
          tables: [],
          cells: [
            [cell('SUM(BYROW(A2:A4,LAMBDA(r,SUM(r))))'), cell('LET(x,B4,Twice(x))'), cell('SUM((A2:A3,B4))')],
            [cell('B2'), cell('1+1')],
            [cell('A2+1'), cell('B2+1')],
            [cell('A3+1'), cell('B3+1')],
          ],
        },
      ],
    });
    expect(model.sheets[0]!.cells[0]!.map((one) => one?.value)).toEqual([9, 12, 9]);
  });
});
