/** Functions that take no logical value for a number, most of them once of Excel's Analysis ToolPak: TRUE is #VALUE!. */
import type { EagerFunction, FunctionSpec } from '../function-spec';
import { failure } from '../values';

/**
 * How many of the first arguments are meant. Source of the dates' and of QUOTIENT: what Excel gives, in
 * github.com/ironcalc/IronCalc, issue 625 and pull requests 524, 1393, 1401 and 1410; of the others IronCalc 0.8.4.
 */
const REFUSING: Readonly<Record<string, number>> = {
  DAYS: 2,
  DAYS360: 2,
  DATEDIF: 2,
  EDATE: 2,
  EOMONTH: 1,
  YEARFRAC: 3,
  NETWORKDAYS: 2,
  'NETWORKDAYS.INTL': 2,
  WORKDAY: 2,
  'WORKDAY.INTL': 2,
  QUOTIENT: 2,
  MROUND: 2,
  SERIESSUM: 3,
  DELTA: 2,
  GESTEP: 2,
  ERF: 2,
  'ERF.PRECISE': 1,
  ERFC: 1,
  'ERFC.PRECISE': 1,
  EFFECT: 2,
  NOMINAL: 2,
  CUMIPMT: 6,
  CUMPRINC: 6,
  DOLLARDE: 2,
  DOLLARFR: 2,
};

/** The function, refusing logical values where it is one that does. */
export function withoutFlags(name: string, spec: FunctionSpec): FunctionSpec {
  const count = REFUSING[name];
  if (count === undefined || spec.kind !== 'eager') return spec;
  const apply: EagerFunction['apply'] = (args, place) =>
    args.slice(0, count).some((arg) => typeof arg === 'boolean') ? failure('#VALUE!') : spec.apply(args, place);
  return { ...spec, apply };
}
