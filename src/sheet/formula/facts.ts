/** The table of ordinary functions: how a file spells them, what they take, whether they spill. */

export interface FunctionFacts {
  /** In capitals: "XLOOKUP". */
  readonly name: string;
  /** Prefix of the name in a file; '' for functions of the format's first edition. */
  readonly filePrefix: '' | '_xlfn.' | '_xlfn._xlws.';
  /** Numbers of arguments; undefined where they are not known. `max` is Infinity for as many as one likes. */
  readonly count: { readonly min: number; readonly max: number } | undefined;
  /** True where the result is a block of cells: the formula is stored as a dynamic array. */
  readonly spills: boolean;
  /** True where arguments are computed as arrays even in a plain formula: SUMPRODUCT(A1:A3*2). */
  readonly overArrays: boolean;
  /** True where equal arguments need not give equal results: NOW, RAND, OFFSET. */
  readonly isVolatile: boolean;
  /** True where the last argument is a function: a LAMBDA, or another function by its bare name. */
  readonly endsWithFunction: boolean;
  /** Whether the parameter (from 0) is one cell: given a range, a plain formula takes the cell of its own row from it. */
  readonly takesCell: (parameter: number) => boolean;
}

/**
 * What is known of each ordinary function, one entry each: NAME:arguments:takes:flags.
 *
 * - arguments: "2", "2-3", "1-*" (as many as one likes), "?" (not known).
 * - takes: one letter a parameter, the last one for all that follow; behind "+" letters that come again and again.
 *   "c" a cell: given a range, a plain formula takes the cell of its own row from it. "v" whatever is given.
 * - flags: x and w the prefix that a file has for it ("_xlfn.", "_xlfn._xlws."); s its result is a block of cells;
 *   a it computes its arguments as arrays in a plain formula, too; t equal arguments need not give equal results;
 *   f its last argument is a function.
 *
 * Sources. Arguments: those that the calculator's functions take (`tests/sheet/formula/facts.test.ts` holds the two
 * equal); those of functions that it lacks from memory, verify. Prefixes: [MS-XLSX] 2.2.2 (future functions), as collected in the XlsxWriter documentation, "Formulas
 * added in Excel 2010 and later"; VSTACK, GROUPBY, REGEXTEST and their like from memory, verify. Volatile ones:
 * from memory, verify.
 */
const FACTS = `
ABS:1:c ACCRINT:5-7:c ACCRINTM:3-5:c ACOS:1:c ACOSH:1:c ACOT:1:c:x ACOTH:1:c:x ADDRESS:2-5:c AGGREGATE:3-*:v:xa
AMORDEGRC:6-7:c AMORLINC:6-7:c ANCHORARRAY:1:v:x AND:1-*:v ARABIC:1:c:x AREAS:1:v ARRAYTOTEXT:1-2:vc:x ASC:1:c
ASIN:1:c ASINH:1:c ATAN:1:c ATAN2:2:c ATANH:1:c AVEDEV:1-*:v AVERAGE:1-*:v AVERAGEA:1-*:v AVERAGEIF:2-3:vcv
AVERAGEIFS:3-*:v+vc BAHTTEXT:1:c BASE:2-3:c:x BESSELI:2:c BESSELJ:2:c BESSELK:2:c BESSELY:2:c BETA.DIST:4-6:c:x
BETA.INV:3-5:c:x BETADIST:3-5:c BETAINV:3-5:c BIN2DEC:1:c BIN2HEX:1-2:c BIN2OCT:1-2:c BINOM.DIST:4:c:x
BINOM.DIST.RANGE:3-4:c:x BINOM.INV:3:c:x BINOMDIST:4:c BITAND:2:c:x BITLSHIFT:2:c:x BITOR:2:c:x BITRSHIFT:2:c:x
BITXOR:2:c:x BYCOL:2:v:xsf BYROW:2:v:xsf CEILING:2:c CEILING.MATH:1-3:c:x CEILING.PRECISE:1-2:c:x CELL:1-2:cv:t CHAR:1:c
CHIDIST:2:c CHIINV:2:c CHISQ.DIST:3:c:x CHISQ.DIST.RT:2:c:x CHISQ.INV:2:c:x CHISQ.INV.RT:2:c:x CHISQ.TEST:2:v:x
CHITEST:2:v CHOOSE:2-*:cv CHOOSECOLS:2-*:v:xs CHOOSEROWS:2-*:v:xs CLEAN:1:c CODE:1:c COLUMN:0-1:v COLUMNS:1:v
COMBIN:2:c COMBINA:2:c:x COMPLEX:2-3:c CONCAT:1-*:v:x CONCATENATE:1-*:c CONFIDENCE:3:c CONFIDENCE.NORM:3:c:x
CONFIDENCE.T:3:c:x CONVERT:3:c CORREL:2:v COS:1:c COSH:1:c COT:1:c:x COTH:1:c:x COUNT:1-*:v COUNTA:1-*:v
COUNTBLANK:1:v COUNTIF:2:vc COUNTIFS:2-*:+vc COUPDAYBS:3-4:c COUPDAYS:3-4:c COUPDAYSNC:3-4:c COUPNCD:3-4:c
COUPNUM:3-4:c COUPPCD:3-4:c COVAR:2:v COVARIANCE.P:2:v:x COVARIANCE.S:2:v:x CRITBINOM:3:c CSC:1:c:x CSCH:1:c:x
CUMIPMT:6:c CUMPRINC:6:c DATE:3:c DATEDIF:3:c DATEVALUE:1:c DAVERAGE:3:v DAY:1:c DAYS:2:c:x DAYS360:2-3:c DB:4-5:c
DCOUNT:3:v DCOUNTA:3:v DDB:4-5:c DEC2BIN:1-2:c DEC2HEX:1-2:c DEC2OCT:1-2:c DECIMAL:2:c:x DEGREES:1:c DELTA:1-2:c
DETECTLANGUAGE:1:c:x DEVSQ:1-*:v DGET:3:v DISC:4-5:c DMAX:3:v DMIN:3:v DOLLAR:1-2:c DOLLARDE:2:c DOLLARFR:2:c
DPRODUCT:3:v DROP:2-3:v:xs DSTDEV:3:v DSTDEVP:3:v DSUM:3:v DURATION:5-6:c DVAR:3:v DVARP:3:v EDATE:2:c EFFECT:2:c
ENCODEURL:1:c:x EOMONTH:2:c ERF:1-2:c ERF.PRECISE:1:c:x ERFC:1:c ERFC.PRECISE:1:c:x ERROR.TYPE:1:c EUROCONVERT:3-5:c
EVEN:1:c EXACT:2:c EXP:1:c EXPAND:2-4:v:xs EXPON.DIST:3:c:x EXPONDIST:3:c F.DIST:4:c:x F.DIST.RT:3:c:x F.INV:3:c:x
F.INV.RT:3:c:x F.TEST:2:v:x FACT:1:c FACTDOUBLE:1:c FALSE:0:c FDIST:3:c FILTER:2-3:v:aws FILTERXML:2:c:x FIND:2-3:c
FINDB:2-3:c FINV:3:c FISHER:1:c FISHERINV:1:c FIXED:1-3:c FLOOR:2:c FLOOR.MATH:1-3:c:x FLOOR.PRECISE:1-2:c:x
FORECAST:3:cv FORECAST.ETS:3-6:cvvccc:x FORECAST.ETS.CONFINT:3-7:cvvcccc:x FORECAST.ETS.SEASONALITY:2-4:vvcc:x
FORECAST.ETS.STAT:3-6:vvcccc:x FORECAST.LINEAR:3:cv:x FORMULATEXT:1:v:x FREQUENCY:2:v:as FTEST:2:v FV:3-5:c
FVSCHEDULE:2:cv GAMMA:1:c:x GAMMA.DIST:4:c:x GAMMA.INV:3:c:x GAMMADIST:4:c GAMMAINV:3:c GAMMALN:1:c
GAMMALN.PRECISE:1:c:x GAUSS:1:c:x GCD:1-*:v GEOMEAN:1-*:v GESTEP:1-2:c GETPIVOTDATA:2-*:cvc GROUPBY:3-8:v:xs
GROWTH:1-4:vvvc:as HARMEAN:1-*:v HEX2BIN:1-2:c HEX2DEC:1:c HEX2OCT:1-2:c HLOOKUP:3-4:cvc HOUR:1:c HSTACK:1-*:v:xs
HYPERLINK:1-2:c HYPGEOM.DIST:5:c:x HYPGEOMDIST:4:c IF:2-3:c IFERROR:2:c IFNA:2:c:x IFS:2-*:c:x IMABS:1:c IMAGE:1-5:c:x
IMAGINARY:1:c IMARGUMENT:1:c IMCONJUGATE:1:c IMCOS:1:c IMCOSH:1:c:x IMCOT:1:c:x IMCSC:1:c:x IMCSCH:1:c:x IMDIV:2:c
IMEXP:1:c IMLN:1:c IMLOG10:1:c IMLOG2:1:c IMPOWER:2:c IMPRODUCT:1-*:v IMREAL:1:c IMSEC:1:c:x IMSECH:1:c:x IMSIN:1:c
IMSINH:1:c:x IMSQRT:1:c IMSUB:2:c IMSUM:1-*:v IMTAN:1:c:x INDEX:2-4:vc INDIRECT:1-2:c:t INFO:1:c:t INT:1:c
INTERCEPT:2:v INTRATE:4-5:c IPMT:4-6:c IRR:1-2:vc ISBLANK:1:c ISERR:1:c ISERROR:1:c ISEVEN:1:c ISFORMULA:1:v:x
ISLOGICAL:1:c ISNA:1:c ISNONTEXT:1:c ISNUMBER:1:c ISO.CEILING:1-2:c ISODD:1:c ISOMITTED:1:v:x ISOWEEKNUM:1:c:x
ISPMT:4:c ISREF:1:v ISTEXT:1:c KURT:1-*:v LAMBDA:1-*:v:xs LARGE:2:vc LCM:1-*:v LEFT:1-2:c LEFTB:1-2:c LEN:1:c LENB:1:c
LET:3-*:v:xs LINEST:1-4:vvc:as LN:1:c LOG:1-2:c LOG10:1:c LOGEST:1-4:vvc:as LOGINV:3:c LOGNORM.DIST:4:c:x
LOGNORM.INV:3:c:x LOGNORMDIST:3:c LOOKUP:2-3:cv:a LOWER:1:c MAKEARRAY:3:ccv:xsf MAP:2-*:v:xsf MATCH:2-3:cvc MAX:1-*:v
MAXA:1-*:v MAXIFS:3-*:v+vc:x MDETERM:1:v:a MDURATION:5-6:c MEDIAN:1-*:v MID:3:c MIDB:3:c MIN:1-*:v MINA:1-*:v
MINIFS:3-*:v+vc:x MINUTE:1:c MINVERSE:1:v:as MIRR:3:vc MMULT:2:v:as MOD:2:c MODE:1-*:v MODE.MULT:1-*:v:xs
MODE.SNGL:1-*:v:x MONTH:1:c MROUND:2:c MULTINOMIAL:1-*:v MUNIT:1:v:xs N:1:v NA:0:c NEGBINOM.DIST:4:c:x
NEGBINOMDIST:3:c NETWORKDAYS:2-3:ccv NETWORKDAYS.INTL:2-4:cccv NOMINAL:2:c NORM.DIST:4:c:x NORM.INV:3:c:x
NORM.S.DIST:2:c:x NORM.S.INV:1:c:x NORMDIST:4:c NORMINV:3:c NORMSDIST:1:c NORMSINV:1:c NOT:1:c NOW:0:c:t NPER:3-5:c
NPV:2-*:cv NUMBERVALUE:1-3:c:x OCT2BIN:1-2:c OCT2DEC:1:c OCT2HEX:1-2:c ODD:1:c ODDFPRICE:8-9:c ODDFYIELD:8-9:c
ODDLPRICE:7-8:c ODDLYIELD:7-8:c OFFSET:3-5:vc:t OR:1-*:v PDURATION:3:c:x PEARSON:2:v PERCENTILE:2:vc
PERCENTILE.EXC:2:vc:x PERCENTILE.INC:2:vc:x PERCENTOF:2:v:x PERCENTRANK:2-3:vc PERCENTRANK.EXC:2-3:vc:x
PERCENTRANK.INC:2-3:vc:x PERMUT:2:c PERMUTATIONA:2:c:x PHI:1:c:x PI:0:c PIVOTBY:4-11:v:xs PMT:3-5:c POISSON:3:c
POISSON.DIST:3:c:x POWER:2:c PPMT:4-6:c PRICE:6-7:c PRICEDISC:4-5:c PRICEMAT:5-6:c PROB:3-4:vvcc PRODUCT:1-*:v PROPER:1:c
PV:3-5:c QUARTILE:2:vc QUARTILE.EXC:2:vc:x QUARTILE.INC:2:vc:x QUERYSTRING:?:v:x QUOTIENT:2:c RADIANS:1:c RAND:0:c:t
RANDARRAY:0-5:v:xst RANDBETWEEN:2:c:t RANK:2-3:cvc RANK.AVG:2-3:cvc:x RANK.EQ:2-3:cvc:x RATE:3-6:c RECEIVED:4-5:c
REDUCE:2-3:v:xsf REGEXEXTRACT:2-4:c:x REGEXREPLACE:3-5:c:x REGEXTEST:2-3:c:x REPLACE:4:c REPLACEB:4:c REPT:2:c
RIGHT:1-2:c RIGHTB:1-2:c ROMAN:1-2:c ROUND:2:c ROUNDDOWN:2:c ROUNDUP:2:c ROW:0-1:v ROWS:1:v RRI:3:c:x RSQ:2:v
SCAN:2-3:v:xsf SEARCH:2-3:c SEARCHB:2-3:c SEC:1:c:x SECH:1:c:x SECOND:1:c SEQUENCE:1-4:v:xs SERIESSUM:4:cccv
SHEET:0-1:v:x SHEETS:0-1:v:x SIGN:1:c SIN:1:c SINGLE:1:v:x SINH:1:c SKEW:1-*:v SKEW.P:1-*:v:x SLN:3:c SLOPE:2:v
SMALL:2:vc SORT:1-4:v:ws SORTBY:2-*:v:xs SQRT:1:c SQRTPI:1:c STANDARDIZE:3:c STDEV:1-*:v STDEV.P:1-*:v:x
STDEV.S:1-*:v:x STDEVA:1-*:v STDEVP:1-*:v STDEVPA:1-*:v STEYX:2:v STOCKHISTORY:2-*:c:xs SUBSTITUTE:3-4:c
SUBTOTAL:2-*:cv SUM:1-*:v SUMIF:2-3:vcv SUMIFS:3-*:v+vc SUMPRODUCT:1-*:v:a SUMSQ:1-*:v SUMX2MY2:2:v SUMX2PY2:2:v
SUMXMY2:2:v SWITCH:3-*:c:x SYD:4:c T:1:v T.DIST:3:c:x T.DIST.2T:2:c:x T.DIST.RT:2:c:x T.INV:2:c:x T.INV.2T:2:c:x
T.TEST:4:vvc:x TAKE:2-3:v:xs TAN:1:c TANH:1:c TBILLEQ:3:c TBILLPRICE:3:c TBILLYIELD:3:c TDIST:3:c TEXT:2:c
TEXTAFTER:2-6:cvcccv:x TEXTBEFORE:2-6:cvcccv:x TEXTJOIN:3-*:vcv:x TEXTSPLIT:2-6:vvvccv:xs TIME:3:c TIMEVALUE:1:c
TINV:2:c TOCOL:1-3:v:xs TODAY:0:c:t TOROW:1-3:v:xs TRANSLATE:1-3:c:x TRANSPOSE:1:v:as TREND:1-4:vvvc:as TRIM:1:c
TRIMMEAN:2:vc TRIMRANGE:1-3:vcc:xs TRUE:0:c TRUNC:1-2:c TTEST:4:vvc TYPE:1:v UNICHAR:1:c:x UNICODE:1:c:x
UNIQUE:1-3:v:xs UPPER:1:c VALUE:1:c VALUETOTEXT:1-2:c:x VAR:1-*:v VAR.P:1-*:v:x VAR.S:1-*:v:x VARA:1-*:v VARP:1-*:v
VARPA:1-*:v VDB:5-7:c VLOOKUP:3-4:cvc VSTACK:1-*:v:xs WEBSERVICE:1:c:x WEEKDAY:1-2:c WEEKNUM:1-2:c WEIBULL:4:c
WEIBULL.DIST:4:c:x WORKDAY:2-3:ccv WORKDAY.INTL:2-4:cccv WRAPCOLS:2-3:v:xs WRAPROWS:2-3:v:xs XIRR:2-3:vvc
XLOOKUP:3-6:cvvvc:x XMATCH:2-4:cvc:x XNPV:3:cv XOR:1-*:v:x YEAR:1:c YEARFRAC:2-3:c YIELD:6-7:c YIELDDISC:4-5:c
YIELDMAT:5-6:c Z.TEST:2-3:vc:x ZTEST:2-3:vc
`;

/** All ordinary functions, by name. */
export const allFunctionFacts: ReadonlyMap<string, FunctionFacts> = new Map(
  FACTS.trim()
    .split(/\s+/)
    .map(factsOf)
    .map((facts) => [facts.name, facts]),
);

function factsOf(entry: string): FunctionFacts {
  const [name, arguments_, takes, flags = ''] = entry.split(':') as [string, string, string, string?];
  const [head, again] = takes.split('+') as [string, string?];
  return {
    name,
    filePrefix: flags.includes('w') ? '_xlfn._xlws.' : flags.includes('x') ? '_xlfn.' : '',
    count: countOf(arguments_),
    spills: flags.includes('s'),
    overArrays: flags.includes('a'),
    isVolatile: flags.includes('t'),
    endsWithFunction: flags.includes('f'),
    takesCell: (parameter) =>
      (head[parameter] ?? (again ? again[(parameter - head.length) % again.length] : head.at(-1))) === 'c',
  };
}

function countOf(text: string): { min: number; max: number } | undefined {
  if (text === '?') return undefined;
  const [min, max = min] = text.split('-') as [string, string?];
  return { min: Number(min), max: max === '*' ? Infinity : Number(max) };
}

/** What is known of an ordinary function, whatever the case of its name; undefined where there is none of that name. */
export const functionFacts = (name: string): FunctionFacts | undefined => allFunctionFacts.get(name.toUpperCase());
