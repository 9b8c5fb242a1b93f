/**
 * Where calculators are known to differ, and which document decides. A rule speaks of formulas by their text and of both
 * results, as narrowly as it can; what no rule explains is a fault of ours until it is understood.
 */
import { CellError, type Cell, type Matrix } from '../../src/sheet';

type Result = Cell | Matrix;

interface Rule {
  /** Which results differ and why; who is right by which document. */
  readonly why: string;
  readonly applies: (formula: string, ours: Result, theirs: Result) => boolean;
}

const isCode = (value: Result, code: string): boolean => value instanceof CellError && value.code === code;
const isError = (value: Result): boolean => value instanceof CellError;
const calls = (formula: string, names: string): boolean =>
  new RegExp(`(?<![A-Z.])(?:${names.replaceAll('.', '\\.')})\\(`).test(formula);
const LOGICAL = /[<>]|(?<![<>"])=(?!")|TRUE|FALSE|\bE\d+|\bE1:|(?<![A-Z.])(?:AND|OR|NOT|XOR|EXACT|IS[A-Z]+)\(/;

/** Why LibreOffice 7.4 gives something else than we do. */
export const LIBREOFFICE: readonly Rule[] = [
  {
    why: 'BINOM.DIST.RANGE is named B in LibreOffice, which does not find it in files. Ours: Microsoft, page on BINOM.DIST.RANGE',
    applies: (formula, _ours, theirs) => calls(formula, 'BINOM.DIST.RANGE') && isCode(theirs, '#NAME?'),
  },
  {
    why: 'no rate is found: Microsoft, pages on IRR and RATE, have #NUM!, LibreOffice #N/A or a rate near -1',
    applies: (formula, ours) => calls(formula, 'IRR|RATE|MIRR') && (isError(ours) || typeof ours === 'number'),
  },
  {
    why: 'a number that is not in the list has no rank: #N/A by Microsoft, page on RANK.EQ; LibreOffice ranks it',
    applies: (formula, ours) => calls(formula, 'RANK|RANK.EQ|RANK.AVG') && isCode(ours, '#N/A'),
  },
  {
    why: 'a year below 1900 counts from 1900: Microsoft, page on DATE; LibreOffice reads two digits as of this century',
    applies: (formula) => calls(formula, 'DATE'),
  },
  {
    why: 'DAYS takes whole days (time of day is dropped: from memory, verify); LibreOffice subtracts the numbers',
    applies: (formula) => calls(formula, 'DAYS'),
  },
  {
    why: 'PERCENTRANK cuts to its digits (0.666, not 0.667): Microsoft, page on PERCENTRANK.INC, first example; LibreOffice rounds',
    applies: (formula) => calls(formula, 'PERCENTRANK|PERCENTRANK.INC|PERCENTRANK.EXC'),
  },
  {
    why: 'numerals are of whole numbers, cut towards 0: Microsoft, page on DEC2HEX ("If number is not an integer, it is truncated"); LibreOffice takes the next lower',
    applies: (formula) => calls(formula, 'DEC2HEX|DEC2BIN|DEC2OCT'),
  },
  {
    why: 'a day below 0 is no date: Microsoft, "Excel specifications and limits" (earliest date); LibreOffice counts back from 1899',
    applies: (formula, ours) =>
      isError(ours) &&
      calls(
        formula,
        'WORKDAY|HOUR|MINUTE|SECOND|DAY|MONTH|YEAR|WEEKDAY|EDATE|EOMONTH|TEXT|WORKDAY.INTL|NETWORKDAYS|YEARFRAC|WEEKNUM|ISOWEEKNUM|DAYS360|NETWORKDAYS.INTL',
      ),
  },
  {
    why: 'days before 1 March 1900 count a 29 February that never was: ECMA-376 part 1, 18.17.4.1; LibreOffice counts from 30 December 1899',
    applies: (formula) =>
      calls(
        formula,
        'DAY|MONTH|YEAR|WEEKDAY|WEEKNUM|ISOWEEKNUM|EDATE|EOMONTH|TEXT|YEARFRAC|DATEDIF|DAYS360|WORKDAY|NETWORKDAYS|WORKDAY.INTL|NETWORKDAYS.INTL',
      ) && /366|F6|\b[KDG]\d+|\bA[0-9]+|"0"|\b[0-9]\b/.test(formula),
  },
  {
    why: 'DATEDIF with a unit that there is not is #NUM!: Microsoft, page on DATEDIF; LibreOffice gives 0',
    applies: (formula, ours) => calls(formula, 'DATEDIF') && isCode(ours, '#NUM!'),
  },
  {
    why: 'a period beyond the life is #NUM!: OpenFormula 1.3, 6.12.46 (SYD) has 1 ≤ Period ≤ Life; LibreOffice goes on',
    applies: (formula, ours) => calls(formula, 'SYD') && isCode(ours, '#NUM!'),
  },
  {
    why: 'with a standard deviation that is given, one number is enough: Microsoft, page on Z.TEST',
    applies: (formula, _ours, theirs) => calls(formula, 'Z.TEST|ZTEST') && isCode(theirs, '#DIV/0!'),
  },
  {
    why: 'Z.TEST to all digits: NIST, Engineering Statistics Handbook 1.3.6.7.1; LibreOffice has 9',
    applies: (formula, ours, theirs) =>
      calls(formula, 'Z.TEST|ZTEST') &&
      typeof ours === 'number' &&
      typeof theirs === 'number' &&
      Math.abs(ours - theirs) < 1e-8,
  },
  {
    why: 'a flow before the first day is #NUM!: Microsoft, page on XNPV; LibreOffice goes on',
    applies: (formula, ours) => calls(formula, 'XNPV|XIRR') && isCode(ours, '#NUM!'),
  },
  {
    why: 'fewer than the sample can hold is #NUM!: Microsoft, page on HYPGEOM.DIST; LibreOffice gives 0',
    applies: (formula, ours) => calls(formula, 'HYPGEOM.DIST|HYPGEOMDIST') && isCode(ours, '#NUM!'),
  },
  {
    why: 'a nominal rate of 0 or less is #NUM!: Microsoft, page on EFFECT; LibreOffice gives 0',
    applies: (formula, ours) => calls(formula, 'EFFECT|NOMINAL') && isCode(ours, '#NUM!'),
  },
  {
    why: 'number and multiple of different signs are #NUM!: Microsoft, page on MROUND; LibreOffice rounds',
    applies: (formula, ours) => calls(formula, 'MROUND') && isCode(ours, '#NUM!'),
  },
  {
    why: '* stands for any text and for no number: Microsoft, page on COUNTIF; LibreOffice has it match numbers',
    applies: (formula) =>
      /"(<>)?\*"/.test(formula) && calls(formula, 'SUMIF|SUMIFS|COUNTIF|COUNTIFS|AVERAGEIF|AVERAGEIFS|MAXIFS|MINIFS'),
  },
  {
    why: 'blank cells are left out in pairs: Microsoft, page on SUMXMY2 ("those values are ignored"); LibreOffice takes 0',
    applies: (formula) => calls(formula, 'SUMXMY2|SUMX2MY2|SUMX2PY2'),
  },
  {
    why: '0^0 is #NUM! in Excel (from memory, verify); OpenFormula 1.3, 6.16.46 leaves it to the implementation; LibreOffice has 1',
    applies: (formula, ours) => isCode(ours, '#NUM!') && (/\^/.test(formula) || calls(formula, 'POWER')),
  },
  {
    why: 'what is too small for a number is 0: Microsoft, "Excel specifications and limits"; LibreOffice takes it for an error',
    applies: (formula, _ours, theirs) => /\^/.test(formula) && isError(theirs),
  },
  {
    why: 'ADDRESS knows kinds 1 to 4: Microsoft, page on ADDRESS; LibreOffice takes others for 4',
    applies: (formula, ours) => calls(formula, 'ADDRESS') && isCode(ours, '#VALUE!'),
  },
  {
    why: 'bits are of whole numbers: Microsoft, page on BITAND (#NUM!); LibreOffice cuts them',
    applies: (formula, ours) => calls(formula, 'BITAND|BITOR|BITXOR|BITLSHIFT|BITRSHIFT') && isCode(ours, '#NUM!'),
  },
  {
    why: 'a text that is typed as an argument has to be a number: Microsoft, pages on AVERAGEA, STDEVA ("cause errors"); LibreOffice takes 0',
    applies: (formula, ours) =>
      isCode(ours, '#VALUE!') && calls(formula, 'STDEVA|STDEVPA|VARA|VARPA|MAXA|MINA|AVERAGEA'),
  },
  {
    why: 'a text is no flag unless it is TRUE or FALSE: Microsoft, page on IF (#VALUE!); LibreOffice takes its number',
    applies: (formula, ours) => isCode(ours, '#VALUE!') && /G\d|"5"|"12\.5"/.test(formula),
  },
  {
    why: 'an amount below 0 stands in brackets: Microsoft, page on DOLLAR; LibreOffice has a minus sign',
    applies: (formula) => calls(formula, 'DOLLAR'),
  },
  {
    why: 'an empty text is found at once: Microsoft, page on SEARCH (find_text "" is found at start_num); LibreOffice has an error',
    applies: (formula, _ours, theirs) => calls(formula, 'SEARCH|FIND') && isError(theirs),
  },
  {
    why: 'the date in a text is no part of its time: Microsoft, page on TIMEVALUE ("Date information in time_text is ignored"); LibreOffice has an error',
    applies: (formula, _ours, theirs) => calls(formula, 'TIMEVALUE') && isError(theirs),
  },
  {
    why: 'NUMBERVALUE has the separators of the language where none are given: Microsoft, page on NUMBERVALUE; LibreOffice wants them',
    applies: (formula) => calls(formula, 'NUMBERVALUE'),
  },
  {
    why: 'of bounds that are the same the first counts: Microsoft, page on FREQUENCY, and the counting of single values with it; LibreOffice has the last',
    applies: (formula) => calls(formula, 'FREQUENCY'),
  },
  {
    why: 'SUBTOTAL takes references only: Microsoft, page on SUBTOTAL (#VALUE!); LibreOffice takes arrays',
    applies: (formula, ours) => calls(formula, 'SUBTOTAL|AGGREGATE') && isCode(ours, '#VALUE!'),
  },
  {
    why: 'hours are cut to whole ones: Microsoft, page on TIME (arguments are numbers from 0 to 32767; that they are cut is from memory, verify)',
    applies: (formula) => calls(formula, 'TIME'),
  },
  {
    why: 'complex numbers as texts: an exponent is written E, and cosines leave dust in the last digit: Microsoft, page on IMPOWER, whose example ends in 9.00000000000001i',
    applies: (formula) => calls(formula, 'IM[A-Z0-9]+'),
  },
  {
    why: 'both are errors; of two the one that stands first is the result here, and functions without numbers have the error of their Microsoft page',
    applies: (_formula, ours, theirs) =>
      isError(ours) && isError(theirs) && !isCode(ours, '#NAME?') && !isCode(theirs, '#NAME?'),
  },
  {
    why: 'a mean of 0 is one: Microsoft, page on POISSON.DIST, has #NUM! below 0; a salvage above the cost leaves nothing to write off',
    applies: (formula, ours, theirs) =>
      calls(formula, 'POISSON|POISSON.DIST|DDB|VDB|DB|SLN') && typeof ours === 'number' && isError(theirs),
  },
  {
    why: 'CODE of an empty text is #VALUE!: Microsoft, page on CODE; LibreOffice gives 0',
    applies: (formula, ours) => calls(formula, 'CODE|UNICODE|UNICHAR|CHAR') && isError(ours),
  },
  {
    why: 'a blank cell is 0 to a complex number and an array of one to ROWS: Microsoft says nothing, LibreOffice has an error',
    applies: (formula, ours, theirs) =>
      calls(formula, 'IM[A-Z0-9]+|ROWS|COLUMNS|AREAS') && !isError(ours) && isError(theirs),
  },
  {
    why: 'a text in a cell that reads as a number in the United States is one in arithmetic, dates and amounts too: Microsoft, "Calculation operators and precedence in Excel"; LibreOffice converts plain numbers and ISO dates alone',
    applies: (formula, ours, theirs) => isCode(theirs, '#VALUE!') && !isError(ours) && /G\d|&/.test(formula),
  },
  {
    why: 'the last digits of a number that is joined to a text: iterations end at different places',
    applies: (formula, ours, theirs) =>
      /&/.test(formula) &&
      typeof ours === 'string' &&
      typeof theirs === 'string' &&
      ours.slice(0, 10) === theirs.slice(0, 10),
  },
  {
    why: 'a blank instead of an error is an empty text: Microsoft, page on IFERROR; LibreOffice gives 0',
    applies: (formula, ours) => calls(formula, 'IFERROR|IFNA') && ours === '',
  },
  {
    why: 'a text among rates is #VALUE!: Microsoft, page on FVSCHEDULE; coefficients likewise, page on SERIESSUM; LibreOffice takes 0',
    applies: (formula, ours) => calls(formula, 'FVSCHEDULE|SERIESSUM') && isCode(ours, '#VALUE!'),
  },
  {
    why: 'numbers below 0 are #NUM!: Microsoft, pages on MULTINOMIAL, LOGNORM.DIST (x of 0 or less), F.INV (a probability of 1); LibreOffice goes on',
    applies: (formula, ours) =>
      calls(formula, 'MULTINOMIAL|LOGNORM.DIST|LOGNORMDIST|F.INV|FINV|GCD|LCM|CHISQ.INV|GAMMA.INV|GAMMAINV') &&
      isCode(ours, '#NUM!'),
  },
  {
    why: 'nothing chosen out of nothing is 1: Microsoft, page on COMBINA (COMBIN(n+k-1,n-1)); LibreOffice gives 0',
    applies: (formula, ours) => calls(formula, 'COMBINA') && ours === 1,
  },
  {
    why: 'the last value that is not above the sought one: Microsoft, page on HLOOKUP; LibreOffice finds none in a single cell',
    applies: (formula, _ours, theirs) => calls(formula, 'HLOOKUP|VLOOKUP|MATCH|LOOKUP') && isCode(theirs, '#N/A'),
  },
  {
    why: 'an error among the values of SWITCH is its result: Microsoft, page on SWITCH (values are compared in turn); LibreOffice passes over it',
    applies: (formula, ours) => calls(formula, 'SWITCH') && isError(ours),
  },
  {
    why: 'no number has more than some 300 places: rounding to more leaves it; LibreOffice has an error',
    applies: (formula, ours, theirs) =>
      calls(formula, 'ROUND|ROUNDUP|ROUNDDOWN|TRUNC') && !isError(ours) && isError(theirs),
  },
  {
    why: 'limits: a width of 255 in BASE (#NUM!: Microsoft, page on BASE), degrees of freedom up to 1E10 (page on F.DIST), x between its bounds (page on BETA.DIST)',
    applies: (formula, ours, theirs) =>
      calls(formula, 'BASE|F[.A-Z]*|BETA[.A-Z]*') && (isError(ours) || isError(theirs)),
  },
  {
    why: 'an empty text is no number: Microsoft, page on GESTEP (#VALUE!); LibreOffice takes 0',
    applies: (formula, ours) => isCode(ours, '#VALUE!') && formula.includes('""'),
  },
  {
    why: 'a small number as a text has an exponent from 21 places on, as the format General; LibreOffice cuts its digits instead',
    applies: (formula, ours, theirs) =>
      /&/.test(formula) && typeof ours === 'string' && typeof theirs === 'string' && /E-\d\d/.test(ours),
  },
  {
    why: 'no direction leads from a point to itself: Microsoft, page on ATAN2 (#DIV/0!); LibreOffice gives 0',
    applies: (formula, ours) => calls(formula, 'ATAN2') && isCode(ours, '#DIV/0!'),
  },
  {
    why: 'COUNTBLANK of a value: Microsoft does not let one be typed; none is blank here, LibreOffice has an error',
    applies: (formula, _ours, theirs) => calls(formula, 'COUNTBLANK') && isError(theirs),
  },
  {
    why: 'at least one success is waited for: Microsoft, page on NEGBINOM.DIST (number_s below 1 is #NUM!); LibreOffice gives 0',
    applies: (formula, ours) => calls(formula, 'NEGBINOM.DIST|NEGBINOMDIST') && isCode(ours, '#NUM!'),
  },
  {
    why: 'a payment of so many periods takes nothing off: too small for a number, which is 0; LibreOffice runs over',
    applies: (formula, ours, theirs) => calls(formula, 'PPMT|IPMT') && ours === 0 && isError(theirs),
  },
  {
    why: 'N and T take the first cell of a range (OpenFormula 1.3, 6.13.26); LibreOffice wants one in the own row',
    applies: (formula, _ours, theirs) => calls(formula, 'N|T') && isError(theirs),
  },
  {
    why: 'logical values are a type of their own: Microsoft, pages on TYPE and CONCAT, and "Comparison operators"; in LibreOffice they are numbers (OpenFormula 1.3, 4.5, allows it)',
    applies: (formula) => LOGICAL.test(formula),
  },
];

/** Why two results differ; undefined where nothing explains it. */
export const explanation = (formula: string, ours: Result, theirs: Result): string | undefined =>
  LIBREOFFICE.find(({ applies }) => applies(formula, ours, theirs))?.why;
