/**
 * Values that others have seen in Excel itself, where documents are silent and other programs differ: the threads of
 * github.com/ironcalc/IronCalc with the number beside each, and github.com/borgar/numfmt, issue 1. Fractions are those
 * of the lists that github.com/SheetJS/ssf and borgar/numfmt keep; of 123.456, of Microsoft's page "Display numbers as
 * fractions".
 */
import { describe, expect, it } from 'vitest';
import { formattedNumber } from '../../src/calculation/number-format';
import { CellError, type Cell } from '../../src/sheet';
import { byTarebook } from '../../tools/compare/calculators';

const SEEN: readonly (readonly [thread: string, formula: string, gives: Cell | string])[] = [
  ['625', 'WORKDAY(TRUE,FALSE)', '#VALUE!'],
  ['625', 'WORKDAY.INTL(TRUE,FALSE)', '#VALUE!'],
  ['625', 'NETWORKDAYS.INTL(TRUE,5)', '#VALUE!'],
  ['625', 'DAYS(TRUE,1)', '#VALUE!'],
  ['625', 'DAYS360(TRUE,400)', '#VALUE!'],
  ['629', 'WORKDAY.INTL(DATE(2025,1,10),10,TRUE)', 45681],
  ['629', 'WORKDAY.INTL(DATE(2025,1,10),10,1.9999)', 45681],
  ['524', 'QUOTIENT(TRUE,1)', '#VALUE!'],
  ['524', 'MOD(TRUE,1)', 0],
  ['1393', 'EOMONTH(TRUE,1)', '#VALUE!'],
  ['1401', 'EDATE(TRUE,1)', '#VALUE!'],
  ['1401', 'EDATE(1,TRUE)', '#VALUE!'],
  ['1400', 'EDATE(K9,5)', 152],
  ['1410', 'YEARFRAC(1,400,TRUE)', '#VALUE!'],
  ['1410', 'DATEDIF(1,TRUE,"D")', '#VALUE!'],
  ['610', 'YEARFRAC(0,0)', 0],
  ['610', 'DATEDIF(1,5,"abc")', '#NUM!'],
  ['978', 'FISHER(TRUE)', '#NUM!'],
  ['978', 'FISHERINV(TRUE)', 0.761594155955765],
  ['672', 'BINOM.INV(TRUE,0.5,0.8)', 1],
  ['734', 'CHISQ.DIST.RT(12.3,TRUE)', 0.000452958],
  ['1293', 'DOLLAR(-0.001,2)', '($0.00)'],
  ['1353', 'NETWORKDAYS.INTL(DATE(2025,1,1),DATE(2026,1,1),K9)', '#NUM!'],
  ['1353', 'NETWORKDAYS.INTL(DATE(2025,1,1),DATE(2026,1,1),)', 262],
  ['628', 'WORKDAY(DATE(2025,1,10),3,{45671,#DIV/0!,#N/A})', '#DIV/0!'],
  ['1397', 'AREAS((A1:A5,C1:C5))', 2],
  ['1397', 'INDEX(GROWTH({2,4,8,16,32},{1,2,3,4,5},6),1,1)', 64],
  ['1397', 'IMPRODUCT("2","3","4")', '24'],
  ['numfmt', 'TEXT(-0.01,"0.0")', '0.0'],
  ['numfmt', 'TEXT(-0.01,"0.0;-0.0")', '-0.0'],
  ['numfmt', 'TEXT(-0.01,"0.0;@")', '-0.0'],
  ['numfmt', 'TEXT(-1,"-0.0")', '--1.0'],
];

/** Each number in each format. */
const FRACTIONS: Readonly<Record<string, readonly (readonly [number: number, text: string])[]>> = {
  '# ?/?': [
    [123.456, '123 1/2'],
    [1, '1    '],
    [-1.2, '-1 1/5'],
    [12.3, '12 1/3'],
    [123.45, '123 4/9'],
    [1234.567, '1234 4/7'],
    [-12345.67891, '-12345 2/3'],
    [0.3, ' 2/7'],
    [1.3, '1 1/3'],
    [2.3, '2 2/7'],
  ],
  '# ??/??': [
    [123.456, '123 26/57'],
    [1, '1      '],
    [-1.2, '-1  1/5 '],
    [12.3, '12  3/10'],
    [-12.34, '-12 17/50'],
    [-123.456, '-123 26/57'],
    [1234.567, '1234 55/97'],
    [-1234.5678, '-1234 46/81'],
    [12345.6789, '12345 55/81'],
  ],
  '# ???/???': [
    [123.456, '123  57/125'],
    [-123.456, '-123  57/125'],
    [1234.567, '1234  55/97 '],
    [-1234.5678, '-1234  67/118'],
    [12345.6789, '12345  74/109'],
    [-12345.67891, '-12345 573/844'],
  ],
  '??/??': [
    [1, ' 1/1 '],
    [-1.2, '- 6/5 '],
    [-123.456, '-7037/57'],
    [1234.567, '119753/97'],
    [12345.6789, '1000000/81'],
  ],
  '# ?/4': [[123.456, '123 2/4']],
  '# ?/8': [[123.456, '123 4/8']],
  '# ?/10': [[123.456, '123 5/10']],
  '# ??/100': [[123.456, '123 46/100']],
  '# ??/16': [
    [123.456, '123  7/16'],
    [1, '1      '],
    [-1.2, '-1  3/16'],
    [12345.6789, '12345 11/16'],
  ],
  '# ?/2': [
    [123.456, '123 1/2'],
    [-1.2, '-1    '],
  ],
  '# ??/?????????': [[0.123251512342345, ' 480894/3901729  ']],
  '# ?? / ?????????': [[0.123251512342345, ' 480894 / 3901729  ']],
  '0 0/0': [
    [0, '0 0/1'],
    [123, '123 0/1'],
    [12.345, '12 1/3'],
  ],
  '?/?': [
    [0, '0/1'],
    [12.345, '37/3'],
  ],
  '# "h" ? "a" / "b" ?': [
    [1.2, '1 h 1 a / b 5'],
    [1, '1            '],
  ],
};

describe('fractions as others have seen them in Excel', () => {
  it.each(
    Object.entries(FRACTIONS).flatMap(([format, seen]) => seen.map(([number, text]) => ({ format, number, text }))),
  )('$number in $format', ({ format, number, text }) => expect(formattedNumber(number, format)).toBe(text));
});

describe('what others have seen in Excel', () => {
  const ours = byTarebook(SEEN.map(([, formula]) => ({ formula })));
  it.each(SEEN.map(([thread, formula, gives], index) => ({ thread, formula, gives, index })))(
    '$formula ($thread)',
    ({ gives, index }) => {
      const found = ours[index];
      const value = found instanceof CellError ? found.code : found;
      if (typeof gives === 'number') expect(value).toBeCloseTo(gives, 9);
      else expect(value).toBe(gives);
    },
  );
});
