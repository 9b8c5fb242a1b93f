/** Differences from LibreOffice 7.4 at the edges of what a function takes: where it gives up, or overflows. */
import { cellsOf, numbersOf, type Call, type Value } from './case';
import { effective, interest, nominal, periodsOf, principal, rateBetween, type Exact } from './exact-loans';
import { isCode, isError, numberOf, type Rule } from './rule';

/** True for a number above -1 and below 0. */
const isCutToZero = (value: Value): boolean => {
  const number = numberOf(value) ?? 0;
  return number < 0 && Math.trunc(number) === 0;
};

const isBeyondWords = (value: Value): boolean => (numberOf(value) ?? 0) >= 2 ** 31;
const isThousands = (value: Value): boolean => (numberOf(value) ?? 0) > 1000;

/** Functions of two numbers, the second of which may be left out. */
const TAKES_TWO = /^(?:DELTA|GESTEP|(?:BIN|OCT|DEC|HEX)2(?:BIN|OCT|DEC|HEX))$/;

export const EDGE_RULES: readonly Rule[] = [
  {
    why: 'the tail beyond 38 deviations is all there is, 0.5: GAUSS is NORM.S.DIST less 0.5 (MS, GAUSS), which is 1 there; LibreOffice overflows',
    applies: (one) =>
      one.some('GAUSS', ([z]) => (numberOf(z) ?? 0) > 38) &&
      (typeof one.theirs === 'string' || Math.abs(numberOf(one.theirs) ?? 0) > 1),
  },
  {
    why: 'TYPE tells what a value is, 4 of a logical one: MS, TYPE; LibreOffice has 8 for a cell with a formula',
    applies: (one) => one.theirs === 8 || one.some('TYPE', ([value]) => typeof value === 'boolean'),
  },
  {
    why: 'an empty text that is typed and a blank cell are 0 to a product of complex numbers, as to all of these functions: IronCalc (MS, IMPRODUCT, says nothing); LibreOffice leaves some of them out',
    applies: (one) => one.some('IMPRODUCT', (args) => args.includes('') || args.includes(null)),
  },
  {
    why: 'more signs than a text has are all that it has, and a place that it does not have is left alone: MS, MID, REPLACE and SUBSTITUTE; LibreOffice has an error from 2^31 on',
    applies: (one) =>
      isError(one.theirs) &&
      one.some('MID|REPLACE|LEFT|RIGHT|SUBSTITUTE', (args, { result }) => !isError(result) && args.some(isBeyondWords)),
  },
  {
    why: 'GAMMA.INV with millions for alpha: Abramowitz and Stegun, 26.4.17 (chi-square with 2 alpha degrees); LibreOffice finds nothing',
    applies: (one) =>
      isError(one.theirs) &&
      one.some('GAMMA.INV|GAMMAINV', ([, alpha], { result }) => !isError(result) && (numberOf(alpha) ?? 0) > 1e6),
  },
  {
    why: 'F.DIST with thousands of degrees of freedom: mpmath, 40 digits; LibreOffice overflows',
    applies: (one) =>
      isError(one.theirs) &&
      one.some('F.DIST|FDIST|F.DIST.RT', ([, ...degrees], { result }) => !isError(result) && degrees.some(isThousands)),
  },
  {
    why: 'of several errors in the range that is summed the first is the result (MS, "Calculation operators and precedence": from left to right); LibreOffice has the last',
    applies: (one) => isError(one.ours) && isError(one.theirs) && one.some('SUMIF|SUMIFS|AVERAGEIF|AVERAGEIFS'),
  },
  {
    why: 'a number that is joined to a text is written in full up to 1E20: from memory, verify; LibreOffice takes powers of ten from 1E15 on',
    applies: (one) =>
      typeof one.theirs === 'string' &&
      /E\+01[5-9]|E\+020/.test(one.theirs) &&
      one.some('&|CONCAT|CONCATENATE|TEXTJOIN'),
  },
  {
    why: 'a height or width below 0 reaches up or left: from memory, verify (MS, OFFSET, asks for positive ones); LibreOffice has an error',
    applies: (one) =>
      isError(one.theirs) &&
      one.some(
        'OFFSET',
        ([, , , ...extent], { result }) => !isError(result) && extent.some((size) => (numberOf(size) ?? 0) < 0),
      ),
  },
  {
    why: 'a control sign is a sign of a text: MS, CODE and CLEAN, tell it apart; LibreOffice passes over it in comparing',
    applies: (one) => one.someCell((cell) => typeof cell === 'string' && /[\u0001-\u001f]/.test(cell)),
  },
  {
    why: 'a text that is no number is #VALUE! in arithmetic: MS, "Calculation operators and precedence"; LibreOffice takes it for 0 where an array is computed',
    applies: (one) =>
      isCode(one.ours, '#VALUE!') &&
      one.some('^|+|-|*|/', (args) => args.some(Array.isArray) && args.some((arg) => typeof arg === 'string')),
  },
  {
    why: 'an error that is divided by 0 stays what it is (MS, "Calculation operators and precedence": from left to right); LibreOffice has #DIV/0!',
    applies: (one) =>
      isCode(one.theirs, '#DIV/0!') && one.some('/', ([of, by]) => isError(of ?? null) && numberOf(by) === 0),
  },
  {
    why: 'a blank cell that is looked for is 0: from memory, verify; LibreOffice has it before all others or behind them',
    applies: (one) => one.some('MATCH|XMATCH|LOOKUP|VLOOKUP|HLOOKUP|XLOOKUP', ([sought]) => sought === null),
  },
  {
    why: 'amounts have up to 127 decimals: from memory, verify; LibreOffice has an error from 16 (DOLLAR) or 21 (FIXED) on',
    applies: (one) => isError(one.theirs) && one.some('DOLLAR|FIXED', ([, decimals]) => (numberOf(decimals) ?? 0) > 15),
  },
  {
    why: 'multiples from 2^53 on are #NUM!: MS, GCD (numbers from 2^53 on; that LCM is alike is from memory, verify); LibreOffice goes on',
    applies: (one) => isCode(one.ours, '#NUM!') && (numberOf(one.theirs) ?? 0) >= 2 ** 53 && one.some('LCM'),
  },
  {
    why: 'a quotient that misses a whole number by the last of its bits is cut: MS, QUOTIENT (the integer portion); LibreOffice rounds it first',
    applies: (one) =>
      Math.abs((numberOf(one.ours) ?? 0) - (numberOf(one.theirs) ?? 9)) === 1 &&
      one.some('QUOTIENT', ([of, by]) => {
        const quotient = (numberOf(of) ?? 0) / (numberOf(by) ?? 1);
        return Math.abs(quotient - Math.round(quotient)) < 1e-9 * Math.abs(quotient);
      }),
  },
  {
    why: 'no part has more than 15 digits: MS, PERCENTRANK.INC and "Excel specifications and limits"; LibreOffice has an error for many',
    applies: (one) =>
      isError(one.theirs) &&
      one.some('PERCENTRANK|PERCENTRANK.INC|PERCENTRANK.EXC', ([, , digits]) => (numberOf(digits) ?? 0) > 15),
  },
  {
    why: 'a quotient of more than some 15 digits leaves no remainder that is known, #NUM!: from memory, verify; LibreOffice gives 0',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      one.some('MOD', ([of, by]) => Math.abs((numberOf(of) ?? 0) / (numberOf(by) ?? 1)) > 1e12),
  },
  {
    why: 'TYPE of several cells is 64: MS, TYPE (an array), and IronCalc; LibreOffice takes the cell of the own row',
    applies: (one) => isError(one.theirs) && one.some('TYPE', ([value]) => Array.isArray(value)),
  },
  {
    why: 'an array gives a result for each of its numbers, the first of which stands in a plain cell: MS, "Guidelines and examples of array formulas"; LibreOffice takes no array for the second number of these',
    applies: (one) =>
      isError(one.theirs) && one.calls.some(({ name, args }) => TAKES_TWO.test(name) && Array.isArray(args[1])),
  },
  {
    why: 'a negative number of which no digit or only zeros are left keeps its sign: A. Wyatt, "Getting Rid of Negative Zero Amounts"; LibreOffice drops it',
    applies: (one) =>
      one.some(
        'TEXT',
        ([value], { result }) => (numberOf(value) ?? 0) < 0 && typeof result === 'string' && /^-[^1-9]*$/.test(result),
      ),
  },
  {
    why: 'a rate that solves the equation of RATE is one: MS, RATE and PV (the equation); LibreOffice finds none',
    applies: (one) =>
      isError(one.theirs) &&
      one.some('RATE', ([periods, payment, present], { result }) => {
        const [n, paid, now] = [numberOf(periods), numberOf(payment), numberOf(present)];
        const rate = numberOf(result);
        if (n === undefined || paid === undefined || now === undefined || !rate) return false;
        const grown = (1 + rate) ** n;
        return Math.abs(now * grown + (paid * (grown - 1)) / rate) <= 1e-6 * Math.abs(now * grown);
      }),
  },
  {
    why: 'x below 0 is #NUM!: MS, GAMMA.DIST; LibreOffice gives 0',
    applies: (one) => isCode(one.ours, '#NUM!') && one.some('GAMMA.DIST|GAMMADIST', ([x]) => (numberOf(x) ?? 0) < 0),
  },
  {
    why: 'a number that is not whole is cut, and -0.5 is then 0: MS, COMBIN, POISSON.DIST, NEGBINOM.DIST and QUARTILE.INC (numbers are truncated; #NUM! below 0); LibreOffice has an error before it cuts',
    applies: (one) =>
      isError(one.theirs) &&
      one.some(
        'COMBIN|COMBINA|PERMUT|FACT|POISSON|POISSON.DIST|BINOM.DIST|BINOMDIST|BINOM.INV|CRITBINOM|NEGBINOM.DIST|NEGBINOMDIST|QUARTILE|QUARTILE.INC|REPLACE|LEFT|RIGHT|MID|REPT',
        (args, { result }) => !isError(result) && args.some(isCutToZero),
      ),
  },
  {
    why: 'a density beyond all numbers is #NUM!: from memory, verify; LibreOffice has #DIV/0!',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      isCode(one.theirs, '#DIV/0!') &&
      one.some('GAMMA.DIST|GAMMADIST|BETA.DIST|CHISQ.DIST|F.DIST', ([x]) => numberOf(x) === 0),
  },
  {
    why: 'the density of two degrees of freedom is exp(-x/2)/2, at 0 too: NIST, Engineering Statistics Handbook 1.3.6.6.6 (IronCalc has it); LibreOffice has 0',
    applies: (one) =>
      numberOf(one.theirs) === 0 &&
      one.some('CHISQ.DIST', ([x, degrees]) => numberOf(x) === 0 && Math.trunc(numberOf(degrees) ?? 0) === 2),
  },
  {
    why: 'arrays of different sizes are #VALUE!, whatever is in them: MS, SUMPRODUCT; LibreOffice gives the error that is in them',
    applies: (one) => isError(one.theirs) && one.some('SUMPRODUCT', (_args, { result }) => isCode(result, '#VALUE!')),
  },
  {
    why: 'in a plain formula a range is its cell in the own row, as a value of SWITCH, too: MS, "Implicit intersection operator: @"; LibreOffice takes its first cell',
    applies: (one) => isCode(one.ours, '#VALUE!') && one.some('SWITCH', (args) => args.slice(1).some(Array.isArray)),
  },
  {
    why: 'decimals that are not whole are cut, and -0.5 is then 0: from memory, verify; LibreOffice takes the next lower',
    applies: (one) => one.some('FIXED|DOLLAR', ([, decimals]) => isCutToZero(decimals)),
  },
  {
    why: 'without a pair of numbers there is #DIV/0!: from memory, verify; LibreOffice has 0',
    applies: (one) =>
      isCode(one.ours, '#DIV/0!') && typeof one.theirs === 'number' && one.some('SUMX2MY2|SUMX2PY2|SUMXMY2'),
  },
  {
    why: 'options 2, 3, 6 and 7 leave out errors, also where they are counted: MS, AGGREGATE; LibreOffice counts them',
    applies: (one) =>
      one.some(
        'AGGREGATE',
        ([kind, option, ...given]) =>
          numberOf(kind) === 3 &&
          [2, 3, 6, 7].includes(Math.trunc(numberOf(option) ?? 0)) &&
          given.flatMap(cellsOf).some(isError),
      ),
  },
  {
    why: 'more characters than the text has are all of it: MS, RIGHT and MID ("greater than the length of text"); LibreOffice has an error above 2147483647',
    applies: (one) =>
      isError(one.theirs) &&
      one.some('LEFT|RIGHT|MID', ([, ...counts]) => counts.some((count) => (numberOf(count) ?? 0) > 2 ** 31 - 1)),
  },
  {
    why: 'there may be no failure, and a blank cell is none: MS, NEGBINOM.DIST (number_f below 0 alone is #NUM!); LibreOffice has an error in NEGBINOMDIST',
    applies: (one) =>
      isError(one.theirs) && one.some('NEGBINOMDIST', ([failures]) => Math.trunc(numberOf(failures) ?? 1) === 0),
  },
  {
    why: 'a blank cell in the place of an error is an empty text: MS, IFERROR ("treats it as an empty string"), and one that is no error is 0: from memory, verify; LibreOffice has a blank for both',
    applies: (one) => one.some('IFERROR|IFNA', (args) => args.some((arg) => arg === null)),
  },
  {
    why: 'the rank of the only value is 1/(1+1): MS, PERCENTRANK.EXC, whose first example has 7/(9+1); LibreOffice has 1',
    applies: (one) => one.some('PERCENTRANK.EXC', ([list]) => numbersOf(list).length === 1),
  },
  {
    why: 'ours is right to 12 digits by the equation of MS, PV, and the pages on IPMT, PPMT and NOMINAL, computed with 300 digits; LibreOffice loses digits in a difference',
    applies: ({ ours, calls: [outermost] }) => {
      if (typeof ours !== 'number' || !outermost) return false;
      const right = exactly(outermost);
      return right?.isFinite() === true && right.minus(ours).abs().lte(right.abs().mul(1e-12));
    },
  },
  {
    why: 'the answers are as many as the cells that are searched: MS, LOOKUP ("result_vector must be the same size"); LibreOffice reads on beyond them',
    applies: (one) =>
      isCode(one.ours, '#N/A') &&
      one.some(
        'LOOKUP',
        ([, among, answers]) => answers !== undefined && cellsOf(answers).length < cellsOf(among).length,
      ),
  },
  {
    why: 'up to 1E10 degrees of freedom: from memory, verify (MS, CHIINV, says it of chi-square); LibreOffice goes on',
    applies: (one) =>
      one.some(
        'T.DIST|T.DIST.2T|T.DIST.RT|TDIST|T.INV|T.INV.2T|TINV|CHIDIST|CHISQ.DIST|CHISQ.DIST.RT|CHIINV|CHISQ.INV|CHISQ.INV.RT',
        (args, { result }) => isCode(result, '#NUM!') && args.some((arg) => (numberOf(arg) ?? 0) > 1e10),
      ),
  },
  {
    why: 'more answers than cells that are searched: MS, LOOKUP, wants as many and says nothing of others; LibreOffice finds nothing in arrays',
    applies: (one) =>
      isCode(one.theirs, '#N/A') &&
      one.some(
        'LOOKUP',
        ([, among, answers]) => answers !== undefined && cellsOf(answers).length > cellsOf(among).length,
      ),
  },
  {
    why: 'LOOKUP is computed over arrays, also where the sought value is a range: from memory, verify; LibreOffice takes the cell of the own row',
    applies: (one) => isCode(one.theirs, '#VALUE!') && one.some('LOOKUP', ([sought]) => Array.isArray(sought)),
  },
  {
    why: 'the sine of 2^27 and more is #NUM!: from memory, verify; LibreOffice goes on',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      one.some('SIN|COS|TAN|COT|SEC|CSC', ([angle]) => Math.abs(numberOf(angle) ?? 0) >= 2 ** 27),
  },
  {
    why: 'a probability of 0 or less is #NUM!: MS, BETA.INV; LibreOffice gives the lower bound',
    applies: (one) => isCode(one.ours, '#NUM!') && one.some('BETA.INV|BETAINV', ([part]) => (numberOf(part) ?? 0) <= 0),
  },
  {
    why: 'x below 0 is #NUM!: MS, CHIDIST; LibreOffice gives 1',
    applies: (one) => isCode(one.ours, '#NUM!') && one.some('CHIDIST|CHISQ.DIST.RT', ([x]) => (numberOf(x) ?? 0) < 0),
  },
  {
    why: 'up to 1E10 degrees of freedom: MS, CHIINV (#NUM! above); LibreOffice finds nothing with so many',
    applies: (one) =>
      isError(one.theirs) &&
      one.some('CHIINV|CHISQ.INV|CHISQ.INV.RT|CHIDIST|CHISQ.DIST|CHISQ.DIST.RT', (args) =>
        args.some((arg) => (numberOf(arg) ?? 0) >= 1e8),
      ),
  },
  {
    why: 'sizes of units by NIST SP 811, appendix B; those of LibreOffice are rounded to some 7 digits',
    applies: (one) =>
      one.some('CONVERT') &&
      Math.abs((numberOf(one.ours) ?? 0) - (numberOf(one.theirs) ?? 1)) <= 1e-6 * Math.abs(numberOf(one.ours) ?? 0),
  },
  {
    why: 'nothing can be chosen of 0 things: MS, PERMUT (#NUM! for 0) and PERMUTATIONA (#NUM! for 0 where number_chosen is above 0); LibreOffice gives 0 or 1',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      one.some('PERMUT|PERMUTATIONA', ([number]) => Math.trunc(numberOf(number) ?? 1) === 0),
  },
  {
    why: 'the ratio of factorials is a number though they are none: MS, MULTINOMIAL (the equation); LibreOffice computes the factorials',
    applies: (one) =>
      isError(one.theirs) && one.some('MULTINOMIAL', (args) => args.flatMap(numbersOf).some((number) => number > 170)),
  },
  {
    why: 'a text that is a number counts where it is an argument: MS, SUMSQ and MAX ("text representations of numbers that you type directly"); LibreOffice has an error',
    applies: (one) =>
      isError(one.theirs) &&
      one.some('SUM|SUMSQ|PRODUCT|AVERAGE|MAX|MIN|MEDIAN', (args) =>
        args.some((arg) => typeof arg === 'string' && numberOf(arg) !== undefined),
      ),
  },
  {
    why: 'the number of periods is cut to a whole one: MS, WorksheetFunction.CumIPmt; LibreOffice goes on with its fraction',
    applies: (one) => one.some('CUMIPMT|CUMPRINC', ([, periods]) => !Number.isInteger(numberOf(periods) ?? 0)),
  },
  {
    why: 'the cost of a good has no upper bound: MS, VDB; LibreOffice has an error for huge ones',
    applies: (one) => isError(one.theirs) && one.some('VDB', ([cost]) => Math.abs(numberOf(cost) ?? 0) > 1e15),
  },
  {
    why: 'in a plain formula an array constant is its first value, for a function of dates, too: MS, "Implicit intersection operator: @"; LibreOffice has an error',
    applies: (one) =>
      isCode(one.theirs, '#VALUE!') &&
      one.some('YEARFRAC|EDATE|EOMONTH|WEEKNUM|WORKDAY|NETWORKDAYS', (_args, { nodes }) =>
        nodes.some((node) => node?.kind === 'array'),
      ),
  },
  {
    why: 'what is shifted beyond 2^48-1 is #NUM!: MS, BITLSHIFT; LibreOffice goes on',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      one.some('BITLSHIFT', ([number, by]) => (numberOf(number) ?? 0) * 2 ** (numberOf(by) ?? 0) > 2 ** 48 - 1),
  },
  {
    why: 'a shift by more than 53 bits is #NUM!: MS, BITRSHIFT and BITLSHIFT; LibreOffice gives 0',
    applies: (one) =>
      isCode(one.ours, '#NUM!') && one.some('BITRSHIFT|BITLSHIFT', ([, by]) => Math.abs(numberOf(by) ?? 0) > 53),
  },
  {
    why: 'places do not count for a negative number: MS, HEX2BIN and HEX2OCT ("If number is negative, … ignores places"); LibreOffice wants them right',
    applies: (one) =>
      one.some(
        'HEX2BIN|HEX2OCT|OCT2BIN|OCT2HEX|BIN2HEX|BIN2OCT|DEC2BIN|DEC2HEX|DEC2OCT',
        (args, { result }) => args.length > 1 && typeof result === 'string' && result.length === 10,
      ) && isError(one.theirs),
  },
  {
    why: 'a fraction has no upper bound: MS, DOLLARDE and DOLLARFR; LibreOffice has an error for large ones',
    applies: (one) =>
      isError(one.theirs) && one.some('DOLLARDE|DOLLARFR', ([, parts]) => (numberOf(parts) ?? 0) >= 2 ** 31),
  },
  {
    why: 'all but no_switch must be positive: MS, VDB; LibreOffice takes a salvage below 0',
    applies: (one) =>
      isCode(one.ours, '#NUM!') && one.some('VDB', (args) => args.slice(0, 5).some((arg) => (numberOf(arg) ?? 0) < 0)),
  },
  {
    why: 'a single value is a list of one to MATCH, as to INDEX: from memory, verify; LibreOffice has an error',
    applies: (one) =>
      isCode(one.theirs, '#VALUE!') &&
      one.some('MATCH', ([, list], { nodes }) => !Array.isArray(list) && nodes[1]?.kind !== 'reference'),
  },
  {
    why: 'a life so long that its rate is 0 to three decimals writes nothing off: MS, DB (the rate, rounded); LibreOffice has an error above 1200',
    applies: (one) => isError(one.theirs) && one.some('DB', ([, , life]) => (numberOf(life) ?? 0) > 1200),
  },
  {
    why: 'a negative number is #NUM!: MS, FACTDOUBLE and FACT; LibreOffice cuts -0.5 to 0 first',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      one.some('FACTDOUBLE|FACT', ([number]) => (numberOf(number) ?? 0) < 0 && Math.trunc(numberOf(number) ?? 0) === 0),
  },
  {
    why: 'an error in a cell is one when it is turned round: MS, TRANSPOSE; LibreOffice gives 0 in a plain formula',
    applies: (one) => one.theirs === 0 && one.some('TRANSPOSE', ([value]) => isError(value)),
  },
  {
    why: 'a text whose number is larger than any, or smaller, is none: MS, "Excel specifications and limits"; LibreOffice takes the largest number, or 0',
    applies: (one) =>
      isCode(one.ours, '#VALUE!') &&
      one.someCell(
        (cell) =>
          typeof cell === 'string' && /E[-+]\d{3,}$/.test(cell) && [0, Infinity].includes(Math.abs(Number(cell))),
      ),
  },
  {
    why: 'up to 127 decimals: MS, FIXED; LibreOffice has an error beyond 15',
    applies: (one) => isError(one.theirs) && one.some('FIXED', ([, decimals]) => (numberOf(decimals) ?? 0) > 15),
  },
  {
    why: 'a text has up to 32,767 characters: MS, REPT (#VALUE!); LibreOffice makes longer ones',
    applies: (one) =>
      isCode(one.ours, '#VALUE!') &&
      one.some('REPT', ([text, times]) => String(text).length * (numberOf(times) ?? 0) > 32_767),
  },
];

/** As many arguments as the longest takes; 0 for those that are left out. */
type Six = readonly [number, number, number, number, number, number];

/** Of so many periods at most: each takes its time with 300 digits. */
const MOST_PERIODS = 200;

function summed([rate, periods, present, first, last, due]: Six, of: typeof interest): Exact | undefined {
  const [from, to] = [Math.trunc(first), Math.trunc(last)];
  if (rate === 0 || from < 1 || to < from || to - from > MOST_PERIODS) return undefined;
  const loan = { rate, periods, present, future: 0, due };
  return Array.from({ length: to - from + 1 }, (_none, at) => of(loan, from + at)).reduce((sum, one) => sum.plus(one));
}

/** Functions of loans and rates by their arguments, with 300 digits; undefined where the equation has no such case. */
const EXACTLY: Readonly<Record<string, (given: Six) => Exact | undefined>> = {
  IPMT: ([rate, period, periods, present, future, due]) =>
    rate === 0 ? undefined : interest({ rate, periods, present, future, due }, period),
  PPMT: ([rate, period, periods, present, future, due]) =>
    rate === 0 ? undefined : principal({ rate, periods, present, future, due }, period),
  CUMIPMT: (given) => summed(given, interest),
  CUMPRINC: (given) => summed(given, principal),
  NPER: ([rate, each, present, future, due]) =>
    rate <= -1 || rate === 0 ? undefined : periodsOf({ rate, present, future, due }, each),
  EFFECT: ([rate, periods]) => effective(rate, Math.trunc(periods)),
  NOMINAL: ([rate, periods]) => nominal(rate, Math.trunc(periods)),
  RRI: ([periods, present, future]) => rateBetween(present, future, periods),
};
const MOST_ARGUMENTS = 6;

/** What a function gives exactly; undefined for other functions and where an argument is no number. */
function exactly({ name, args }: Call): Exact | undefined {
  const numbers = Array.from({ length: MOST_ARGUMENTS }, (_one, index) => numberOf(args[index]));
  return numbers.includes(undefined) ? undefined : EXACTLY[name]?.(numbers as unknown as Six);
}
