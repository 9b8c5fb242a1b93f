/**
 * From the project's models to the pictures' data: which pane and report draw alike. Quantities are shown in the
 * workbook's units and written in English, unless other ones are handed in.
 */
import { percentMac } from '../core/balance';
import type {
  BudgetPictureData,
  EnvelopeCase,
  EnvelopePictureData,
  LogPictureData,
  ParetoPictureData,
} from '../pictures';
import { quantities, type Quantities } from '../core/quantity';
import {
  logOf,
  type BalanceModel,
  type ComponentWeights,
  type JudgedCase,
  type WeightLog,
  type WeightsModel,
} from '../project';

const bar = ({ name, current, forecast, budget, rootSum }: ComponentWeights) => ({
  id: name,
  name,
  current,
  forecast,
  budget,
  plusMinus: rootSum,
});

/** Components against the budget; a bar's id is its component's name. */
export const budgetData = (
  { components, total, units }: WeightsModel,
  say: Quantities = quantities(units),
): BudgetPictureData => ({ bars: components.map(bar), total: bar(total), quantities: say });

/** The heaviest parts; a bar's id is its row on the parts list, from 0. */
export const paretoData = (
  { heaviest, units }: WeightsModel,
  most = 12,
  say: Quantities = quantities(units),
): ParetoPictureData => ({
  parts: heaviest.slice(0, most).map(({ row, part, component, weight, together }) => ({
    id: String(row),
    name: part,
    of: component,
    weight,
    together,
  })),
  count: heaviest.length,
  quantities: say,
});

/** One component's log, or the total's; a point's id is its date. */
export const logData = (
  { entries, units }: WeightLog,
  component = 'Total',
  say: Quantities = quantities(units),
): LogPictureData => ({
  name: component,
  points: logOf(entries, component).map(({ date, weight, forecast, budget, note }) => ({
    id: date,
    date,
    weight,
    forecast,
    budget,
    note,
  })),
  quantities: say,
});

/** A judged case as the envelope's picture takes it; its id is the row on the cases' sheet, or "now". */
export function envelopeCase({ name, row, result, words }: JudgedCase): EnvelopeCase {
  const { takeoff, landing, burn, inside } = result;
  const { limits, limitsAt } = takeoff.judgement;
  return {
    id: row === undefined ? 'now' : String(row),
    name,
    takeoff: { weight: takeoff.weight, arm: takeoff.arm, inside: takeoff.judgement.inside },
    landing: { weight: landing.weight, arm: landing.arm, inside: landing.judgement.inside },
    burn,
    words: words.verdict,
    inside,
    limits: { ...limits, at: limitsAt },
  };
}

/** Per cent of the chord at an arm, where the weighing says what the chord is. */
export function percentOfChord({ weighing }: Pick<BalanceModel, 'weighing'>): ((arm: number) => number) | undefined {
  const chord = weighing?.record.chord;
  return chord && ((arm) => percentMac(arm, chord.lemac, chord.mac));
}

/** Cases over the envelope; undefined until the model has one. `reach` is the outline of what the ranges allow. */
export function envelopeData(
  { judged, weighing, airplane, units }: BalanceModel,
  cases: readonly JudgedCase[],
  reach?: EnvelopePictureData['reach'],
  say: Quantities = quantities(units),
): EnvelopePictureData | undefined {
  if (!judged) return undefined;
  const toPercent = percentOfChord({ weighing });
  return {
    envelope: judged.airplane.envelope,
    cases: cases.map(envelopeCase),
    title: airplane ? `Loading envelope, ${airplane}` : 'Loading envelope',
    quantities: say,
    ...(reach ? { reach } : {}),
    ...(toPercent ? { toPercent } : {}),
  };
}
