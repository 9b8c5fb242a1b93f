/** Judged loadings as the picture of the envelope takes them. */
import { percentMac } from '../../core/balance';
import type { EnvelopeCase } from '../../pictures';
import type { BalanceModel, JudgedCase } from '../../workbook';

export function envelopeCase({ name, row, result: { takeoff, landing, burn, inside }, words }: JudgedCase): EnvelopeCase {
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
export function toPercentOf({ weighing }: BalanceModel): ((arm: number) => number) | undefined {
  const chord = weighing?.record.chord;
  return chord && ((arm) => percentMac(arm, chord.lemac, chord.mac));
}
