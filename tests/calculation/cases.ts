/** Formulas over a small sheet, with the values that a spreadsheet program shows for them. */
import { CellError, type Cell, type CellModel, type Matrix, type WorkbookModel } from '../../src/sheet';

const error = (code: CellError['code']): CellError => new CellError(code);
const NA = error('#N/A');
const VALUE = error('#VALUE!');
const NUM = error('#NUM!');
const DIV0 = error('#DIV/0!');

/** A1:E5 of the sheet, and a table Sizes with columns one and two in A10:B12. */
const DATA: readonly (readonly (Cell | undefined)[])[] = [
  [1, 4, 7.5, 'Rib', true],
  [2, 5, -1, 'spar'],
  [3, 6, 0, 'skin'],
  ['text', undefined, undefined, 'rib'],
  [10, undefined, undefined, 'x'],
  ...Array.from({ length: 4 }, (): Cell[] => []),
  ['one', 'two'],
  [1, 2],
  [3, 4],
];

export interface FormulaCase {
  readonly formula: string;
  readonly gives: Cell | Matrix;
  /** Why the embedded engine gives something else. */
  readonly engineDiffers?: string;
}

const rows: readonly (readonly [string, Cell | Matrix, string?])[] = [
  // Operators
  ['1+2*3', 7],
  ['-2^2', 4],
  ['2^3^2', 64],
  ['"a"&1.50', 'a1.5', 'it keeps the digits as typed'],
  ['10%', 0.1],
  ['1/0', DIV0],
  ['0^0', NUM],
  ['0.1+0.2-0.3', 0],
  ['"abc"="ABC"', true],
  ['"a"<"b"', true],
  ['1<"a"', true],
  ['"5"+1', 6],
  ['"x"+1', VALUE],
  ['TRUE+1', 2],
  ['A6', 0],
  ['A6=""', true],
  ['A6=0', true],
  ['D1&A6', 'Rib'],
  ['A1:A3*2', [[2], [4], [6]]],
  [
    'A1:A2+TRANSPOSE(A1:A3)',
    [
      [2, 3, 4],
      [3, 4, 5],
    ],
  ],
  ['A1:A3+B1:B2', [[5], [7], [NA]]],
  [
    '{1,2;3,4}*10',
    [
      [10, 20],
      [30, 40],
    ],
  ],
  // Sums and counts
  ['SUM(A1:B3,"5",TRUE)', 27],
  ['SUM("x")', VALUE],
  ['SUM({1,2;3,4})', 10],
  ['SUM(B:B)', 21],
  ['SUM(2:2)', 6],
  ['SUM(A1:INDEX(A1:A3,2))', 3],
  ['AVERAGE(A1:A5)', 4],
  ['AVERAGE(A6:A7)', DIV0],
  ['MAX(A1:C5)', 10],
  ['MIN(A6:A7)', 0],
  ['COUNT(A1:E5)', 10],
  ['COUNTA(A1:E5)', 17],
  ['COUNTBLANK(A1:E6)', 13],
  ['MEDIAN(A1:B3)', 3.5],
  ['PRODUCT(A1:B3)', 720],
  ['STDEV.S(A1:B3)', 1.8708286933869707],
  ['VAR.P(A1:B3)', 35 / 12],
  ['SUMSQ(A1:A3)', 14],
  ['LARGE(A1:B3,2)', 5],
  ['SMALL(A1:B3,{1;2})', [[1], [2]]],
  ['LARGE(A1:A3,9)', NUM],
  ['RANK(3,A1:A3)', 1],
  ['SUMPRODUCT(A1:A3,B1:B3)', 32],
  ['SUMPRODUCT((A1:A3>1)*B1:B3)', 11],
  ['SUMPRODUCT(--(D1:D3="rib"),A1:A3)', 1],
  ['SUBTOTAL(9,A1:A3)', 6],
  // Conditions
  ['SUMIF(A1:A3,">1",B1:B3)', 11],
  ['SUMIF(D1:D4,"r*",A1:A4)', 1],
  ['SUMIF(A1:A3,2)', 2],
  ['SUMIFS(B1:B3,A1:A3,">=2",D1:D3,"skin")', 6],
  ['COUNTIF(D1:D5,"rib")', 2],
  ['COUNTIF(A1:A5,"<>2")', 4],
  ['COUNTIF(D1:D5,D1:D2)', [[2], [1]]],
  ['COUNTIFS(A1:A3,">0",B1:B3,"<6")', 2],
  ['AVERAGEIF(A1:A3,">1")', 2.5],
  ['MAXIFS(B1:B3,A1:A3,"<3")', 5],
  ['MINIFS(B1:B3,A1:A3,">1")', 5],
  // Choices
  ['IF(A1>0,"yes","no")', 'yes'],
  ['IF(FALSE,1)', false],
  ['IF(A1:A3>1,B1:B3,"low")', [['low'], [5], [6]]],
  ['IF(A1:A2>1,1/0,"low")', [['low'], [DIV0]]],
  ['IFERROR(1/0,"bad")', 'bad'],
  ['IFERROR(A1:A3/{1;0;1},-1)', [[1], [-1], [3]]],
  ['IFNA(NA(),7)', 7],
  ['IFNA(1/0,7)', DIV0],
  ['IFS(A1>5,1,A1>0,2)', 2],
  ['IFS(A1>5,1)', NA],
  ['SWITCH(A2,1,"one",2,"two","more")', 'two'],
  ['CHOOSE(2,"a","b","c")', 'b'],
  ['CHOOSE(4,"a","b","c")', VALUE],
  [
    'CHOOSE({2,1},A1:A2,B1:B2)',
    [
      [4, 1],
      [5, 2],
    ],
    'it takes the first row only',
  ],
  ['VLOOKUP(5,CHOOSE({1,2},B1:B3,A1:A3),2,FALSE)', 2, 'it takes the first row only'],
  ['AND(TRUE,A1>0)', true],
  ['OR(FALSE,A1>5)', false],
  ['XOR(TRUE,TRUE,TRUE)', true],
  ['NOT(A1>5)', true],
  ['ISBLANK(A6)', true],
  ['ISNUMBER(A1:A4)', [[true], [true], [true], [false]]],
  ['ISERROR(1/0)', true],
  ['ISERR(NA())', false],
  ['ISEVEN(2)', true],
  // Lookups
  ['MATCH(2,A1:A3,0)', 2],
  ['MATCH(2.5,A1:A3)', 2],
  ['MATCH("s*",D1:D5,0)', 2],
  ['MATCH(99,A1:A3,0)', NA],
  ['INDEX(A1:B3,2,2)', 5],
  ['INDEX(A1:B3,0,2)', [[4], [5], [6]]],
  ['INDEX(A1:A3,9)', error('#REF!')],
  ['INDEX(B1:B3,MATCH("spar",D1:D3,0))', 5],
  ['VLOOKUP(2,A1:B3,2,FALSE)', 5],
  ['VLOOKUP(2.5,A1:B3,2)', 5],
  ['VLOOKUP(0.5,A1:B3,2)', NA],
  ['HLOOKUP(1,A1:B3,3,FALSE)', 3],
  ['XLOOKUP(3,A1:A3,B1:B3)', 6],
  ['XLOOKUP({1;3},A1:A3,B1:B3)', [[4], [6]]],
  ['XLOOKUP(9,A1:A3,B1:B3,"none")', 'none'],
  ['XLOOKUP(2.5,A1:A3,B1:B3,,-1)', 5],
  ['XLOOKUP(2,A1:A3,A1:B3)', [[2, 5]]],
  ['XMATCH(3,A1:A3)', 3],
  ['ROW(A5)', 5],
  ['COLUMN(C1)', 3],
  ['ROWS(A1:B3)', 3],
  ['COLUMNS(A1:B3)', 2],
  // Numbers
  ['ROUND(2.675,2)', 2.68],
  ['ROUND(1.005,2)', 1.01],
  ['ROUND(-2.5,0)', -3],
  ['ROUND(1234,-2)', 1200],
  ['ROUNDUP(-2.001,1)', -2.1],
  ['ROUNDDOWN(-2.99,1)', -2.9],
  ['INT(-2.5)', -3],
  ['TRUNC(-2.567,1)', -2.5],
  ['MOD(-7,3)', 2],
  ['MOD(7,-3)', -2],
  ['MOD(1,0)', DIV0],
  ['SQRT(-1)', NUM],
  ['LN(0)', NUM],
  ['LOG(8,2)', 3],
  ['LOG10(1000)', 3],
  ['ATAN2(1,2)', Math.atan2(2, 1)],
  ['CEILING(2.1,0.5)', 2.5],
  ['CEILING(0.3,0.1)', 0.3],
  ['FLOOR(2.9,0.5)', 2.5],
  ['FLOOR(5,0)', DIV0],
  ['MROUND(7,3)', 6],
  ['EVEN(3)', 4],
  ['ODD(2)', 3],
  ['ASIN(2)', NUM],
  // Texts
  ['LEFT("rivet",3)', 'riv'],
  ['LEFT("abc",-1)', VALUE],
  ['RIGHT("rivet",2)', 'et'],
  ['MID("rivet",2,3)', 'ive'],
  ['PROPER("wing rib no 4")', 'Wing Rib No 4'],
  ['TRIM("  a   b ")', 'a b'],
  ['SUBSTITUTE("a-b-c","-","+")', 'a+b+c'],
  ['SUBSTITUTE("a-b-c","-","+",2)', 'a-b+c'],
  ['TEXT(0.02,".000")', '.020'],
  ['TEXT(0.032,"0.00")', '0.03'],
  ['TEXT(1.005,"0.00")', '1.01', 'it rounds the binary value'],
  ['TEXT(-1234.5,"#,##0")', '-1,235'],
  ['TEXT(-0.01,"0.0")', '0.0'],
  ['TEXT(-0.05,"0.0")', '-0.1'],
  ['TEXT(-0.2,"#")', ''],
  ['TEXT(-0.01,"0.0;-0.0")', '-0.0'],
  ['TEXT(-0.01,"0.0_);(0.0)")', '(0.0)'],
  ['TEXT(-1,"0.0;@")', '-1.0'],
  ['TEXT(-0.01,"0.0;@")', '-0.0'],
  ['TEXT(-0.01,"0 #/#")', '-0    '],
  ['FIXED(-0.004,2)', '0.00'],
  ['DOLLAR(-0.004,2)', '($0.00)'],
  ['TEXT(0.256,"0%")', '26%'],
  ['TEXT(12.5,"0.0##")', '12.5'],
  ['TEXT(7,"000")', '007'],
  ['TEXT("rib","0.0")', 'rib'],
  ['REPLACE("abcdef",2,3,"X")', 'aXef'],
  ['FIND("C","abc")', VALUE],
  ['SEARCH("C","abc")', 3],
  ['VALUE("12.5")', 12.5],
  ['EXACT("a","A")', false],
  ['REPT("ab",3)', 'ababab'],
  ['CONCAT(D1:D3,"x")', 'Ribsparskinx'],
  ['CONCATENATE("a",1,TRUE)', 'a1TRUE'],
  ['TEXTJOIN(", ",TRUE,D1:D3)', 'Rib, spar, skin'],
  // Blocks
  [
    'SEQUENCE(2,2,10,5)',
    [
      [10, 15],
      [20, 25],
    ],
  ],
  ['UNIQUE(D1:D5)', [['Rib'], ['spar'], ['skin'], ['x']], 'it tells capitals apart'],
  ['SORT(B1:B3,1,-1)', [[6], [5], [4]], 'it sorts the very range, and every formula that reads it afterwards is wrong'],
  ['SORTBY(D1:D3,B1:B3,-1)', [['skin'], ['spar'], ['Rib']]],
  ['FILTER(D1:D3,A1:A3>1)', [['spar'], ['skin']]],
  ['FILTER(D1:D3,A1:A3>9,"none")', 'none'],
  ['VSTACK(A1:A2,B1:B2)', [[1], [2], [4], [5]]],
  [
    'HSTACK(A1:A2,B1:B2)',
    [
      [1, 4],
      [2, 5],
    ],
  ],
  ['TAKE(A1:B3,-1,1)', 3],
  [
    'DROP(A1:B3,1)',
    [
      [2, 5],
      [3, 6],
    ],
  ],
  [
    'CHOOSECOLS(A1:B2,2,1)',
    [
      [4, 1],
      [5, 2],
    ],
  ],
  [
    'MMULT(A1:B2,A1:B2)',
    [
      [9, 24],
      [12, 33],
    ],
  ],
  // Dates
  ['DATE(2026,3,14)', 46095],
  ['YEAR(46095)', 2026],
  ['MONTH(46095)', 3],
  ['DAY(46095)', 14],
  // Tables and names
  ['SUM(Sizes[one])', 4],
  ['SUM(Sizes[[one]:[two]])', 10],
  ['Sizes[#Headers]', [['one', 'two']]],
  ['COUNTA(Sizes)', 4],
  ['COUNTA(Sizes[#All])', 6],
  ['Total*2', 20],
  // Our own functions beside the ordinary ones
  ['SUM(TARE.AREA.RECT(A1:A3,B1:B3))', 32],
  ['TARE.AREA.RECT(A1:A3,IF(B1:B3>4,10,1))', [[1], [20], [30]]],
];

export const cases: readonly FormulaCase[] = rows.map(([formula, gives, engineDiffers]) => ({
  formula,
  gives,
  ...(engineDiffers ? { engineDiffers } : {}),
}));

const COLUMN = 20;
const APART = 8;

/** The cell of the index-th formula. */
export const placeOf = (index: number): { row: number; column: number } => ({ row: index * APART, column: COLUMN });

/** A workbook with the data and every case's formula, far enough apart to spill. */
export function workbookOf(formulas: readonly string[]): WorkbookModel {
  const cells: (CellModel | undefined)[][] = DATA.map((line) =>
    line.map((value) => (value === undefined ? undefined : { value })),
  );
  formulas.forEach((formula, index) => ((cells[index * APART] ??= [])[COLUMN] = { value: null, formula }));
  return {
    styles: [],
    names: [{ name: 'Total', refersTo: 'Data!$A$5' }],
    sheets: [
      {
        name: 'Data',
        cells,
        tables: [
          { name: 'Sizes', range: { sheet: 'Data', row: 9, column: 0, rows: 3, columns: 2 }, columns: ['one', 'two'] },
        ],
      },
    ],
  };
}

/** What the index-th formula gives in a calculated workbook: a value, or the block of its spill. */
export function resultOf(model: WorkbookModel, index: number): Cell | Matrix {
  const { cells } = model.sheets[0]!;
  const row = index * APART;
  const { value = null, spill = { rows: 1, columns: 1 } } = cells[row]?.[COLUMN] ?? {};
  if (spill.rows * spill.columns === 1) return value;
  return Array.from({ length: spill.rows }, (_line, r) =>
    Array.from({ length: spill.columns }, (_cell, c) => cells[row + r]?.[COLUMN + c]?.value ?? null),
  );
}
