/** Differences from LibreOffice 7.4, function by function. */
import { FUNCTIONS } from '../../src/calculation/functions';
import { textNumber } from '../../src/calculation/text-number';
import { numberText } from '../../src/calculation/values';
import { cellsOf, numbersOf, type Call } from './case';
import { isCode, isError, numberOf, type Rule } from './rule';

const IN_IF = 'SUMIF|SUMIFS|COUNTIF|COUNTIFS|AVERAGEIF|AVERAGEIFS|MAXIFS|MINIFS';
const isRange = ({ nodes }: Call, index: number): boolean =>
  nodes[index]?.kind === 'reference' || nodes[index]?.kind === 'name';
/** A text that stands in the formula itself. */
const isTyped = ({ nodes }: Call, index: number): boolean =>
  nodes[index] !== undefined && !isRange({ nodes } as Call, index);
/** What takes a flag: whether something is cumulative, near, in A1 style. */
const TAKES_FLAG =
  /^(?:IFS?|AND|X?OR|NOT|[VH]LOOKUP|RANK(?:\.EQ|\.AVG)?|TEXTJOIN|INDIRECT|ADDRESS|FIXED|DAYS360|POISSON|WEIBULL|[A-Z.]+DIST|[A-Z.]+\.DIST(?:\.\w+)?)$/;
/** What takes no logical value for a number, by its definition. */
const REFUSING_FLAGS = [...FUNCTIONS]
  .flatMap(([name, spec]) => (spec.kind === 'eager' && spec.takes.includes('n') ? [name] : []))
  .join('|');
const isWhole = (value: number | undefined): boolean => value === undefined || Number.isInteger(value);

/** Which parameters of SUMIF and its like are ranges. */
const isRangeParameter = (name: string, index: number): boolean =>
  /IFS$/.test(name) && name !== 'COUNTIFS' ? index === 0 || index % 2 === 1 : index % 2 === 0;

/** Real and imaginary part of "3+4i". */
function complex(text: unknown): [number, number] | undefined {
  if (typeof text === 'number') return [text, 0];
  const found = /^([-+]?[\d.]+(?:E[-+]?\d+)?)??(?:([-+]?(?:[\d.]+(?:E[-+]?\d+)?)?)[ij])?$/i.exec(String(text));
  if (!found) return undefined;
  const part = (digits: string | undefined): number =>
    digits === undefined ? 0 : /\d/.test(digits) ? Number(digits) : digits === '-' ? -1 : 1;
  return [part(found[1]), found[2] === undefined ? 0 : part(found[2])];
}

/** True for complex numbers, as texts, that are the same to 9 digits. */
export function areNear(a: unknown, b: unknown): boolean {
  const [left, right] = [complex(a), complex(b)];
  if (!left || !right) return false;
  const size = Math.max(1, Math.hypot(...left));
  return Math.abs(left[0] - right[0]) <= 1e-9 * size && Math.abs(left[1] - right[1]) <= 1e-9 * size;
}

export const FUNCTION_RULES: readonly Rule[] = [
  {
    why: 'where no rate is found there is #NUM!: MS, IRR and RATE; LibreOffice has another error, a rate near -1 or one beyond all bounds',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      (isError(one.theirs) || (numberOf(one.theirs) ?? 0) < -0.85 || (numberOf(one.theirs) ?? 0) > 1e12) &&
      one.some('IRR|RATE|XIRR'),
  },
  {
    why: 'without a payment and a future value no rate but -1 pays a loan back: MS, PV (the equation of the five); LibreOffice stops on the way to it',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      one.some('RATE', ([, each, present, future]) => !numberOf(each) && !numberOf(future) && !!numberOf(present)),
  },
  {
    why: 'a rate is found to .0000001: MS, RATE; where it is 0, LibreOffice stops a step from it',
    applies: (one) =>
      one.some('RATE') && Math.abs(numberOf(one.ours) ?? 1) < 1e-6 && Math.abs(numberOf(one.theirs) ?? 1) < 1e-6,
  },
  {
    why: 'at a rate of -1 all is lost in the first period, so that no number of them brings a payment back: MS, PV (the equation of the five); LibreOffice and IronCalc take the logarithm of 0',
    applies: (one) => isCode(one.ours, '#NUM!') && one.some('NPER', ([rate]) => numberOf(rate) === -1),
  },
  {
    why: 'of a cost of 0 nothing is written off, and periods count from 1: ECMA-376 part 1, DB (#NUM! below 0 alone; the first period is 1); LibreOffice has an error for the first and 0 for the second',
    applies: (one) =>
      one.some('DB', ([cost, , , period]) =>
        numberOf(cost) === 0 ? isError(one.theirs) : isCode(one.ours, '#NUM!') && (numberOf(period) ?? 1) < 1,
      ),
  },
  {
    why: 'a digit from 1 to 9 in a format is shown as it stands: from memory, verify; LibreOffice takes it for a place of the number, IronCalc for an error',
    applies: (one) => one.some('TEXT', ([, format]) => /[1-9]/.test(String(format))),
  },
  {
    why: 'a word that is no format is shown as it stands: from memory, verify; LibreOffice has a year of another calendar for its b',
    applies: (one) => one.some('TEXT', ([, format], { result }) => typeof format === 'string' && result === format),
  },
  {
    why: 'a single value is a block of one row and one column to INDEX: MS, INDEX, has ranges and array constants and no error for it; LibreOffice and IronCalc have one',
    applies: (one) =>
      isCode(one.theirs, '#VALUE!') &&
      one.some('INDEX', ([array], { nodes }) => !Array.isArray(array) && nodes[0]?.kind !== 'reference'),
  },
  {
    why: 'a text in a cell that reads as a number is even or odd as that number is, as IronCalc has it: MS, ISEVEN (#VALUE! for what is nonnumeric); LibreOffice has an error',
    applies: (one) =>
      isCode(one.theirs, '#VALUE!') &&
      one.some('ISEVEN|ISODD', ([cell]) => typeof cell === 'string' && numberOf(cell) !== undefined),
  },

  {
    why: 'a number that is not in the list has no rank: #N/A by MS, RANK.EQ; LibreOffice ranks it',
    applies: (one) =>
      isCode(one.ours, '#N/A') &&
      one.some('RANK|RANK.EQ|RANK.AVG', ([number, list]) => !numbersOf(list).includes(numberOf(number) ?? Number.NaN)),
  },
  {
    why: 'PERCENTRANK cuts to its digits (0.666, not 0.667): MS, PERCENTRANK.INC, first example; LibreOffice rounds',
    applies: (one) =>
      one.some('PERCENTRANK|PERCENTRANK.INC|PERCENTRANK.EXC', ([, , digits], { result }) => {
        if (typeof one.ours === 'string' && typeof result === 'number') {
          const step = 10 ** -(digits === undefined ? 3 : (numberOf(digits) ?? 3));
          const [cut, round] = [Number(one.ours), Number(one.theirs)];
          if (Math.abs(round - cut) <= step) return true;
          return one.ours.replace(numberText(result), numberText(result + step)) === one.theirs;
        }
        const apart = (numberOf(one.theirs) ?? Number.NaN) - (numberOf(one.ours) ?? Number.NaN);
        // What is then computed with it may be larger.
        if (!/^PERCENTRANK/.test(one.calls[0]!.name))
          return Math.abs(apart) <= 0.05 * Math.abs(numberOf(one.ours) ?? 0);
        return Math.abs(apart) <= 1.000001 * 10 ** -(digits === undefined ? 3 : (numberOf(digits) ?? 3));
      }),
  },
  {
    why: 'numerals are of whole numbers, cut towards 0: MS, DEC2HEX ("If number is not an integer, it is truncated"); LibreOffice takes the next lower',
    applies: (one) => one.some('DEC2HEX|DEC2BIN|DEC2OCT', ([number]) => !isWhole(numberOf(number))),
  },
  {
    why: 'a period beyond the life is #NUM!: ODF 6.12.46 (SYD) has 1 ≤ Period ≤ Life; LibreOffice goes on',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      one.some(
        'SYD',
        ([, , life, period]) => (numberOf(period) ?? 0) > (numberOf(life) ?? 0) || (numberOf(period) ?? 0) < 1,
      ),
  },
  {
    why: 'a flow before the first day is #NUM!: MS, XNPV; LibreOffice goes on',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      one.some('XNPV|XIRR', (args, { name }) => {
        const days = numbersOf(args[name === 'XNPV' ? 2 : 1]);
        return days.some((day) => day < days[0]!);
      }),
  },
  {
    why: 'a rate of 0 or less is #NUM!: MS, EFFECT and NOMINAL; LibreOffice gives 0',
    applies: (one) => isCode(one.ours, '#NUM!') && one.some('EFFECT|NOMINAL', ([rate]) => (numberOf(rate) ?? 0) <= 0),
  },
  {
    why: 'number and multiple of different signs are #NUM!: MS, MROUND; LibreOffice rounds',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      one.some('MROUND', ([number, multiple]) => (numberOf(number) ?? 0) * (numberOf(multiple) ?? 0) < 0),
  },
  {
    why: '* stands for any text and for no number: MS, COUNTIF; LibreOffice has it match numbers',
    applies: (one) => one.some(IN_IF, (args) => args.some((arg) => arg === '*' || arg === '<>*')),
  },
  {
    why: 'blank cells are left out in pairs: MS, SUMXMY2 ("those values are ignored"); LibreOffice takes 0',
    applies: (one) => one.some('SUMXMY2|SUMX2MY2|SUMX2PY2', (args) => args.flatMap(cellsOf).includes(null)),
  },
  {
    why: '0^0 is #NUM! in Excel (from memory, verify); ODF 6.16.46 leaves it to the implementation; LibreOffice has 1',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      one.some('^|POWER', ([base, power]) => numberOf(base) === 0 && numberOf(power) === 0),
  },
  {
    why: 'what is too small for a number is 0: MS, "Excel specifications and limits"; LibreOffice takes it for an error',
    applies: (one) =>
      isError(one.theirs) &&
      (one.some('^|POWER', ([base, power]) => {
        const [of, to] = [numberOf(base), numberOf(power)];
        return of !== undefined && to !== undefined && of !== 0 && Math.abs(of) ** to < 1e-300;
      }) ||
        one.some(
          'NEGBINOMDIST|NEGBINOM.DIST',
          ([failures], { result }) => result === 0 && (numberOf(failures) ?? 0) > 0,
        )),
  },
  {
    why: 'an error among the numbers is the result: MS, MMULT and the page on #N/A; LibreOffice has 0',
    applies: (one) => isError(one.ours) && one.some('MMULT', (args) => args.some((arg) => cellsOf(arg).some(isError))),
  },
  {
    why: 'ADDRESS knows kinds 1 to 4: MS, ADDRESS; LibreOffice takes others for 4',
    applies: (one) =>
      isCode(one.ours, '#VALUE!') &&
      one.some(
        'ADDRESS',
        ([, , kind]) => kind !== undefined && ![1, 2, 3, 4].includes(Math.trunc(numberOf(kind) ?? 0)),
      ),
  },
  {
    why: 'bits are of whole numbers: MS, BITAND (#NUM!); LibreOffice cuts them',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      one.some('BITAND|BITOR|BITXOR|BITLSHIFT|BITRSHIFT', (args) => args.some((arg) => !isWhole(numberOf(arg)))),
  },
  {
    why: 'a text that is typed as an argument has to be a number: MS, AVERAGEA and STDEVA ("cause errors"); LibreOffice takes 0',
    applies: (one) =>
      isCode(one.ours, '#VALUE!') &&
      one.some('STDEVA|STDEVPA|VARA|VARPA|MAXA|MINA|AVERAGEA', (args, call) =>
        args.some((arg, index) => typeof arg === 'string' && isTyped(call, index)),
      ),
  },
  {
    why: 'a text is no flag unless it is TRUE or FALSE: MS, IF and AND (#VALUE!); LibreOffice takes its number',
    applies: (one) =>
      isCode(one.ours, '#VALUE!') &&
      one.calls.some(({ args }) => args.some((arg) => typeof arg === 'string' && numberOf(arg) !== undefined)) &&
      one.calls.some(({ name }) => TAKES_FLAG.test(name)),
  },
  {
    why: 'an amount below 0 stands in brackets: MS, DOLLAR; LibreOffice has a minus sign',
    applies: (one) => one.some('DOLLAR', ([amount]) => (numberOf(amount) ?? 0) < 0),
  },
  {
    why: 'an empty text is found at once: MS, SEARCH (find_text "" is found at start_num); LibreOffice has an error',
    applies: (one) => isError(one.theirs) && one.some('SEARCH|FIND', ([sought]) => sought === '' || sought === null),
  },
  {
    why: 'NUMBERVALUE has the separators of the language where none are given: MS, NUMBERVALUE; LibreOffice wants them',
    applies: (one) => one.some('NUMBERVALUE', (args) => args.length === 1),
  },
  {
    why: 'of bounds that are the same the first counts: MS, FREQUENCY, and the counting of single values with it; LibreOffice has the last',
    applies: (one) => one.some('FREQUENCY', ([, bounds]) => new Set(numbersOf(bounds)).size < numbersOf(bounds).length),
  },
  {
    why: 'SUBTOTAL takes references only: MS, SUBTOTAL (#VALUE!); LibreOffice takes arrays',
    applies: (one) =>
      isCode(one.ours, '#VALUE!') &&
      one.some('SUBTOTAL|AGGREGATE', (_args, call) =>
        call.nodes.some((_node, index) => index >= (call.name === 'SUBTOTAL' ? 1 : 2) && !isRange(call, index)),
      ),
  },
  {
    why: 'complex numbers leave dust in the last digit: MS, IMPOWER, whose example ends in 9.00000000000001i; the numbers are the same to 9 digits',
    applies: (one) => {
      if (!one.calls.some(({ name }) => /^(?:IM[A-Z]|COMPLEX$)/.test(name))) return false;
      const joined = one.calls.find(({ name }) => name === '&')?.args[0];
      if (typeof joined !== 'string' || typeof one.ours !== 'string' || typeof one.theirs !== 'string')
        return areNear(one.ours, one.theirs);
      const behind = one.ours.slice(joined.length);
      return one.theirs.endsWith(behind) && areNear(joined, one.theirs.slice(0, one.theirs.length - behind.length));
    },
  },
  {
    why: 'a salvage above the cost leaves nothing to write off: MS, DDB and SLN, bar it by no rule; LibreOffice has an error',
    applies: (one) =>
      isError(one.theirs) &&
      !isError(one.ours) &&
      one.some('DDB|VDB|DB', ([cost, salvage]) => (numberOf(salvage) ?? 0) >= (numberOf(cost) ?? 0)),
  },
  {
    why: 'CODE of an empty text is #VALUE!, CHAR of a number that is no character, too: MS, CODE and CHAR; LibreOffice gives 0 or what it has',
    applies: (one) =>
      isError(one.ours) &&
      one.some(
        'CODE|UNICODE|UNICHAR|CHAR',
        ([of]) => of === '' || of === null || !isWhole(numberOf(of)) || (numberOf(of) ?? 0) < 1,
      ),
  },
  {
    why: 'a blank instead of an error is an empty text: MS, IFERROR; LibreOffice gives 0',
    applies: (one) =>
      one.some('IFERROR|IFNA', ([, other], { result }) => result === '' && (other === null || other === undefined)),
  },
  {
    why: 'a text among rates is #VALUE!: MS, FVSCHEDULE; among coefficients likewise, SERIESSUM; LibreOffice takes 0',
    applies: (one) =>
      isCode(one.ours, '#VALUE!') &&
      one.some('FVSCHEDULE|SERIESSUM', (args) => cellsOf(args.at(-1)).some((cell) => typeof cell === 'string')),
  },
  {
    why: 'numbers below 0 are #NUM!: MS, MULTINOMIAL, GCD and LCM; LibreOffice goes on',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      one.some('MULTINOMIAL|GCD|LCM', (args) => args.flatMap(cellsOf).some((cell) => (numberOf(cell) ?? 0) < 0)),
  },
  {
    why: 'nothing chosen out of nothing is 1: MS, COMBINA (COMBIN(n+k-1,n-1)); LibreOffice gives 0',
    applies: (one) => one.ours === 1 && one.some('COMBINA', ([n, k]) => numberOf(n) === 0 && numberOf(k) === 0),
  },
  {
    why: 'an error among the values of SWITCH is its result: MS, SWITCH (values are compared in turn); LibreOffice passes over it',
    applies: (one) => isError(one.ours) && one.some('SWITCH', (args) => args.some(isError)),
  },
  {
    why: 'no number has more than some 300 places: rounding to more leaves it; LibreOffice has an error',
    applies: (one) =>
      isError(one.theirs) &&
      !isError(one.ours) &&
      one.some('ROUND|ROUNDUP|ROUNDDOWN|TRUNC', ([, places]) => Math.abs(numberOf(places) ?? 0) > 20),
  },
  {
    why: 'a width above 255 is #NUM!: MS, BASE; LibreOffice has another limit',
    applies: (one) => one.some('BASE', ([, , width]) => (numberOf(width) ?? 0) > 255 || (numberOf(width) ?? 0) < 0),
  },
  {
    why: 'an empty text is no number: MS, GESTEP (#VALUE!); LibreOffice takes 0',
    applies: (one) => isCode(one.ours, '#VALUE!') && one.calls.some(({ args }) => args.includes('')),
  },
  {
    why: 'no direction leads from a point to itself: MS, ATAN2 (#DIV/0!); LibreOffice gives 0',
    applies: (one) =>
      isCode(one.ours, '#DIV/0!') && one.some('ATAN2', ([x, y]) => numberOf(x) === 0 && numberOf(y) === 0),
  },
  {
    why: 'COUNTBLANK of a value: Excel does not let one be typed; none is blank here, LibreOffice has an error',
    applies: (one) => isError(one.theirs) && one.some('COUNTBLANK', (_args, call) => !isRange(call, 0)),
  },
  {
    why: 'N and T take the first cell of a range (ODF 6.13.26); LibreOffice wants one in the own row',
    applies: (one) => isError(one.theirs) && one.some('N|T', ([value]) => Array.isArray(value)),
  },
  {
    why: 'a range is a reference: MS, SUMIF and its like (Excel lets no array be typed there); LibreOffice computes with the array',
    applies: (one) =>
      isCode(one.ours, '#VALUE!') &&
      one.some(IN_IF, (_args, call) =>
        call.nodes.some(
          (node, index) => (node?.kind === 'array' || node?.kind === 'value') && isRangeParameter(call.name, index),
        ),
      ),
  },
  {
    why: 'TRUE and FALSE in a condition are logical values: MS, COUNTIF; in LibreOffice they are the numbers 1 and 0 (ODF 4.5)',
    applies: (one) =>
      one.some(IN_IF, (args) => args.some((arg) => typeof arg === 'string' && /^[<>=]*(?:true|false)$/i.test(arg))),
  },
  {
    why: 'without a number in the data there are zeros, without a bound all are counted: MS, FREQUENCY; LibreOffice has an error',
    applies: (one) =>
      isError(one.theirs) &&
      one.some('FREQUENCY', ([data, bounds]) => numbersOf(data).length === 0 || numbersOf(bounds).length === 0),
  },
  {
    why: 'cells of a block are taken in rows, as flows stand in reading order (from memory, verify; IronCalc does so); LibreOffice takes them in columns',
    applies: (one) =>
      one.some('MIRR|IRR', ([flows]) => Array.isArray(flows) && flows.length > 1 && flows[0]!.length > 1),
  },
  {
    why: 'a blank cell is 0 to a complex number and even: MS, ISEVEN and IMSUM say nothing (IronCalc has 0); LibreOffice has an error',
    applies: (one) =>
      isError(one.theirs) &&
      !isError(one.ours) &&
      one.calls.some(({ name, args }) => /^(?:IM[A-Z0-9]+|ISEVEN|ISODD)$/.test(name) && args.includes(null)),
  },
  {
    why: 'a value is an array of one: MS, ROWS ("an array, an array formula, or a reference"); LibreOffice has an error',
    applies: (one) => isError(one.theirs) && one.some('ROWS|COLUMNS', (_args, call) => !isRange(call, 0)),
  },
  {
    why: 'a text is not among numbers: MS, "Look up values" (types have to match); LibreOffice takes its number, or the last',
    applies: (one) =>
      (isCode(one.ours, '#N/A') || isCode(one.theirs, '#N/A')) &&
      one.some(
        'MATCH|VLOOKUP|HLOOKUP|LOOKUP',
        ([sought, list], { nodes }) =>
          typeof sought === 'string' &&
          numbersOf(list).length > 0 &&
          (textNumber(sought) !== undefined ||
            nodes[1]?.kind === 'array' ||
            cellsOf(list).every((cell) => typeof cell !== 'string')),
      ),
  },
  {
    why: 'the last value that is not above the sought one: MS, HLOOKUP; LibreOffice finds none in a range of one column, and has an error for a single value',
    applies: (one) =>
      isError(one.theirs) && one.some('HLOOKUP', ([, table]) => !Array.isArray(table) || table[0]!.length === 1),
  },
  {
    why: 'a number is looked for among the numbers of a row that has texts between them: MS, "Look up values" (types have to match); LibreOffice stops at a text',
    applies: (one) =>
      isCode(one.theirs, '#N/A') &&
      one.some(
        'HLOOKUP',
        ([sought, table]) =>
          typeof sought === 'number' && Array.isArray(table) && table[0]!.some((cell) => typeof cell === 'string'),
      ),
  },
  {
    why: 'OFFSET starts at a reference: MS, OFFSET (#VALUE!); LibreOffice has #N/A',
    applies: (one) => isCode(one.ours, '#VALUE!') && one.some('OFFSET', (_args, call) => !isRange(call, 0)),
  },
  {
    why: 'in a plain formula one number of a range is taken, that in the own row: MS, "Implicit intersection operator: @" (#VALUE! where there is none); LibreOffice takes the first',
    applies: (one) =>
      isCode(one.ours, '#VALUE!') &&
      one.some('LARGE|SMALL|PERCENTILE|QUARTILE', (args, call) => Array.isArray(args[1]) && isRange(call, 1)),
  },
  {
    why: 'a text in a cell that is a number is one, as the k of SMALL, too: MS, "Calculation operators and precedence in Excel"; LibreOffice wants a number there',
    applies: (one) =>
      isError(one.theirs) &&
      one.some(
        'LARGE|SMALL|PERCENTILE|QUARTILE|TRIMMEAN',
        ([, k]) => typeof k === 'string' && numberOf(k) !== undefined,
      ),
  },
  {
    why: 'kinds of weekends are cut to whole numbers (from memory, verify); LibreOffice has an error',
    applies: (one) =>
      isError(one.theirs) && one.some('NETWORKDAYS.INTL|WORKDAY.INTL', ([, , kind]) => !isWhole(numberOf(kind))),
  },
  {
    why: 'a blank cell is left out: IronCalc does so (MS, GCD and LCM, say nothing); LibreOffice takes 0',
    applies: (one) => one.some('GCD|LCM', (args) => args.flatMap(cellsOf).includes(null)),
  },
  {
    why: 'AGGREGATE is computed over arrays (MS, AGGREGATE, array form), its kind, too; LibreOffice takes the kind of the own row',
    applies: (one) =>
      isError(one.theirs) && one.some('AGGREGATE', ([kind, option]) => Array.isArray(kind) || Array.isArray(option)),
  },
  {
    why: 'a logical value is the number of a flow here, and a blank is 0; LibreOffice wants numbers (MS, XNPV and XIRR, say nothing)',
    applies: (one) =>
      isError(one.theirs) &&
      one.some('XNPV|XIRR', (args) => args.flatMap(cellsOf).some((cell) => typeof cell === 'boolean' || cell === null)),
  },
  {
    why: 'a root of a number below 0 is #NUM!: MS, POWER (IronCalc, too); LibreOffice takes odd roots',
    applies: (one) =>
      isCode(one.ours, '#NUM!') && one.some('^|POWER', ([of, to]) => (numberOf(of) ?? 0) < 0 && !isWhole(numberOf(to))),
  },
  {
    why: 'without numbers there is #NUM!: from memory, verify; LibreOffice and IronCalc divide by none',
    applies: (one) => isCode(one.ours, '#NUM!') && one.some('DEVSQ', (args) => args.flatMap(numbersOf).length === 0),
  },
  {
    why: 'logical values are no numbers to functions that came with the Analysis ToolPak: src/calculation/functions/define.ts has the sources; LibreOffice takes 1 and 0',
    applies: (one) =>
      isCode(one.ours, '#VALUE!') && one.some(REFUSING_FLAGS, (args) => args.some((arg) => typeof arg === 'boolean')),
  },
  {
    why: 'a fraction is the last convergent with so many places, a nought is blank: Microsoft, "Display numbers as fractions"; LibreOffice takes the nearest',
    applies: (one) =>
      typeof one.ours === 'string' &&
      typeof one.theirs === 'string' &&
      one.some('TEXT', ([, format]) => /[0#?] *\/ *[0#?]/.test(String(format))),
  },
  {
    why: 'what rounds to 0 keeps its minus in a fraction, and in a format with more than one section: github.com/borgar/numfmt, issue 1; LibreOffice drops it',
    applies: (one) =>
      one.some('TEXT', ([number, format]) => (numberOf(number) ?? 0) < 0 && /[;/]/.test(String(format))) &&
      typeof one.ours === 'string' &&
      /^-[0., ]+$/.test(one.ours) &&
      one.theirs === one.ours.slice(1),
  },
  {
    why: 'an error is left out where AGGREGATE is told so: MS, AGGREGATE (options 2, 3, 6, 7); LibreOffice does so in ranges alone',
    applies: (one) =>
      isError(one.theirs) && one.some('AGGREGATE', ([, option], { result }) => !isError(result) && !!numberOf(option)),
  },
  {
    why: 'bits move by whole places, cut towards 0: IronCalc (MS, BITRSHIFT, says nothing); LibreOffice takes the next lower',
    applies: (one) => one.some('BITLSHIFT|BITRSHIFT', ([, places]) => !isWhole(numberOf(places))),
  },
  {
    why: 'a sign stands close to its number: IronCalc ("- 5" is a text); LibreOffice lets spaces in',
    applies: (one) =>
      isCode(one.ours, '#VALUE!') &&
      one.someCell((cell) => typeof cell === 'string' && /^\s*(?:[-+]\s+[\d.]|\(\s)/.test(cell)),
  },
  {
    why: 'a text is no number, whatever it is divided by: MS, MOD, and IronCalc; LibreOffice looks at the divisor first',
    applies: (one) =>
      isCode(one.ours, '#VALUE!') && one.some('MOD', ([of, by]) => numberOf(of) === undefined && numberOf(by) === 0),
  },
];
