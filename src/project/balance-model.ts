/**
 * What the project's sheets say of an airplane's balance: the weighing, the loading typed now and the
 * saved cases, each judged, and the worst that the stations' ranges allow. All of it is computed by
 * src/core/balance; what is in error is named among the problems.
 */
import {
  allInside,
  INCH_POUND,
  judgeCase,
  judgementWords,
  wordingOf,
  worstLoadings,
  type Airplane,
  type CaseResult,
  type Envelope,
  type Load,
  type Wording,
  type WorstLoadings,
} from '../core/balance';
import { quantities, type Quantities, type UnitSystem, type WriteNumber } from '../core/quantity';
import { airplaneSheets, type AirplaneSheets } from './balance-forms';
import {
  readCases,
  readEnvelope,
  readLoading,
  type CasesSheet,
  type EnvelopeSheet,
  type Loading,
  type StationRow,
} from './loading';
import { kept, type Problem, type SheetValues } from './reading';
import { unitsOfProject } from './project-units';
import type { OwnSystem } from './units';
import { readWeighing, type Weighing } from './weighing';

export interface JudgedCase {
  readonly name: string;
  /** Row on the cases' sheet, from 0; undefined for the loading typed now. */
  readonly row: number | undefined;
  readonly loads: readonly number[];
  readonly result: CaseResult;
  readonly words: CaseWords;
}

export interface BalanceModel {
  readonly sheets: AirplaneSheets;
  /** The system that the airplane is shown in: the workbook's. All weights here are in lb, arms in in. */
  readonly units: UnitSystem;
  /** The system that the labels of the airplane's own sheets are in, for sheets that are added to them: 'both' where they differ. */
  readonly sheetUnits: OwnSystem;
  /** How weights and arms are said, in that system. */
  readonly say: Wording;
  /** What the weighing calls the airplane, else the words behind the sheets' names; may be ''. */
  readonly airplane: string;
  readonly weighing: Weighing | undefined;
  readonly loading: Loading | undefined;
  readonly envelopeSheet: EnvelopeSheet | undefined;
  readonly casesSheet: CasesSheet | undefined;
  /** From the weighing, else as the loading sheet states it. */
  readonly empty: (Load & { readonly from: 'weighing' | 'loading' }) | undefined;
  readonly stations: readonly StationRow[];
  readonly envelope: Envelope | undefined;
  /** Undefined until there is an empty weight, a station and an envelope. */
  readonly judged: JudgedBalance | undefined;
  readonly problems: readonly Problem[];
}

export interface JudgedBalance {
  readonly airplane: Airplane;
  /** The loading typed on the loading sheet; undefined where none is. */
  readonly now: JudgedCase | undefined;
  readonly cases: readonly JudgedCase[];
  readonly worst: WorstLoadings;
  /** True where every loading that the ranges allow is inside. */
  readonly allInside: boolean;
}

/**
 * One model an airplane of the workbook, in the order of its sheets; `names` are the names of all sheets.
 * @param write how numbers in the verdicts are written
 */
export const balanceModels = kept(
  (values: SheetValues, names: readonly string[], write?: WriteNumber): BalanceModel[] => {
    const say = quantities(unitsOfProject(values, names), write);
    return airplaneSheets(names).flatMap((sheets) => balanceModel(values, sheets, say) ?? []);
  },
);

/** The model of one airplane; undefined where neither its weighing sheet nor its loading sheet has a header. */
// eslint-disable-next-line complexity -- each sheet may be missing
function balanceModel(values: SheetValues, sheets: AirplaneSheets, inUnits: Quantities): BalanceModel | undefined {
  const weighing = sheets.weighing === undefined ? undefined : readWeighing(values, sheets.weighing);
  const loading = sheets.loading === undefined ? undefined : readLoading(values, sheets.loading);
  if (!weighing && !loading) return undefined;
  const envelopeSheet = sheets.envelope === undefined ? undefined : readEnvelope(values, sheets.envelope);
  const stations = loading?.stations ?? [];
  const casesSheet =
    sheets.cases === undefined || stations.length === 0 ? undefined : readCases(values, sheets.cases, stations);
  const empty = emptyOf(weighing, loading);
  const envelope = envelopeSheet?.envelope;
  const say = wordingOf(inUnits);
  return {
    sheets,
    units: inUnits.system,
    sheetUnits: oneOf([
      weighing?.points.system,
      loading?.form.system,
      envelopeSheet?.form.system,
      casesSheet?.form.system,
    ]),
    say,
    airplane: weighing?.airplane || sheets.name,
    weighing,
    loading,
    envelopeSheet,
    casesSheet,
    empty,
    stations,
    envelope,
    judged:
      empty && envelope && stations.length > 0
        ? judgedBalance({ empty, stations, envelope }, loading, casesSheet, say)
        : undefined,
    problems: [weighing, loading, envelopeSheet, casesSheet].flatMap((one) => one?.problems ?? []),
  };
}

function oneOf(systems: readonly (OwnSystem | undefined)[]): OwnSystem {
  const [first = 'in-lb', ...others] = new Set(systems.flatMap((system) => system ?? []));
  return others.length > 0 ? 'both' : first;
}

const emptyOf = (weighing: Weighing | undefined, loading: Loading | undefined): BalanceModel['empty'] =>
  weighing?.result
    ? { weight: weighing.result.weight, arm: weighing.result.arm, from: 'weighing' }
    : loading?.empty && { ...loading.empty, from: 'loading' };

function judgedBalance(
  airplane: Airplane,
  loading: Loading | undefined,
  cases: CasesSheet | undefined,
  say: Wording,
): JudgedBalance {
  const worst = worstLoadings(airplane);
  return {
    airplane,
    now: loading?.loaded
      ? judgedCase(
          airplane,
          'Loading now',
          loading.stations.map(({ load }) => load),
          undefined,
          say,
        )
      : undefined,
    cases: (cases?.cases ?? []).map(({ name, row, loads }) => judgedCase(airplane, name, loads, row, say)),
    worst,
    allInside: allInside(airplane, worst),
  };
}

/** One loading judged, with its words. */
export function judgedCase(
  airplane: Airplane,
  name: string,
  loads: readonly number[],
  row?: number,
  say?: Wording,
): JudgedCase {
  const result = judgeCase(airplane, { name, loads });
  return { name, row, loads, result, words: caseWords(result, say) };
}

export interface CaseWords {
  /** "inside from take-off to landing", or what is out first. */
  readonly verdict: string;
  readonly takeoff: string;
  readonly landing: string;
  /** Stations over their most or under their least. */
  readonly stations: readonly string[];
}

function caseWords(result: CaseResult, say: Wording = INCH_POUND): CaseWords {
  const stations = result.stationFindings.map(({ station, loaded, by }) => {
    const range = by > 0 ? `over its most, ${say.weight(station.max)}` : `under its least, ${say.weight(station.min)}`;
    return `${station.name}: ${say.weight(loaded)} is ${say.weight(Math.abs(by))} ${range}`;
  });
  return {
    verdict: verdictOf(result, stations, say),
    takeoff: judgementWords(result.takeoff.judgement, say),
    landing: judgementWords(result.landing.judgement, say),
    stations,
  };
}

function verdictOf({ takeoff, landing, firstOutside }: CaseResult, stations: readonly string[], say: Wording): string {
  if (!takeoff.judgement.inside) return `at take-off ${judgementWords(takeoff.judgement, say)}`;
  if (firstOutside && firstOutside.burnt > 0) {
    const after = `leaves the envelope after ${say.weight(firstOutside.burnt)} of fuel`;
    return landing.judgement.inside
      ? `${after} and is back inside at landing`
      : `${after}; at landing ${judgementWords(landing.judgement, say)}`;
  }
  if (stations.length > 0) return `inside, but ${stations.join('; ')}`;
  return 'inside from take-off to landing';
}
