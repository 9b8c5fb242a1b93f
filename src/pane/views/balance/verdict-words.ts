/** A judged loading in the pane's language, from what the judgement found. */
import { TOLERANCE, type CaseResult, type Finding, type Judgement, type Wording } from '../../../core/balance';
import type { UnitSystem } from '../../../core/quantity';
import type { EnvelopeCase } from '../../../pictures';
import { envelopeCase } from '../../../report';
import type { JudgedCase } from '../../../project';
import { t } from '../../locale';
import { figuresIn } from './balance-numbers';

/** To be shown once where a limit is judged. */
export const limitsCaution = (): string =>
  t('Limits come from the aircraft’s own documents; an estimate is not a weighing.');

/** "inside, 2.50 in aft of the forward limit and 0.40 in forward of the aft limit", or what is outside. */
export function judgementText(judgement: Judgement, say: Wording): string {
  if (judgement.inside) return t('inside, {margins}', { margins: marginsText(judgement, say) });
  return t('outside: {findings}', {
    findings: judgement.findings.map((finding) => findingText(finding, judgement, say)).join('; '),
  });
}

/** How far inside: from the forward limit and from the aft one. */
export function marginsText({ arm, limits }: Judgement, say: Wording): string {
  const slack = TOLERANCE * Math.max(1, limits.to - limits.from);
  const [onForward, onAft] = [arm - limits.from <= slack, limits.to - arm <= slack];
  const [forward, aft] = [say.arm(arm - limits.from), say.arm(limits.to - arm)];
  if (onForward && onAft) return t('on the forward limit and on the aft limit');
  if (onForward) return t('on the forward limit and {aft} forward of the aft limit', { aft });
  if (onAft) return t('{forward} aft of the forward limit and on the aft limit', { forward });
  return t('{forward} aft of the forward limit and {aft} forward of the aft limit', { forward, aft });
}

/** The weight whose limits are shown: the loading's own, or the highest or lowest of the envelope where that is exceeded. */
type LimitsAt = 'own' | 'highest' | 'lowest';

function findingText(
  { kind, by: distance }: Finding,
  { weight, arm, limits, limitsAt }: Judgement,
  say: Wording,
): string {
  const at: LimitsAt = limitsAt === weight ? 'own' : weight > limitsAt ? 'highest' : 'lowest';
  const values = { weight: say.weight(limitsAt), at };
  switch (kind) {
    case 'heavy':
      return t('{by} over the highest weight, {limit}', { by: say.weight(distance), limit: say.weight(limitsAt) });
    case 'light':
      return t('{by} under the lowest weight, {limit}', { by: say.weight(distance), limit: say.weight(limitsAt) });
    case 'forward':
      return t(
        '{at, select, highest {{by} forward of the forward limit, {limit} at the envelope’s highest weight, {weight}} lowest {{by} forward of the forward limit, {limit} at the envelope’s lowest weight, {weight}} other {{by} forward of the forward limit, {limit} at {weight}}}',
        {
          ...values,
          by: say.arm(distance),
          limit: say.arm(limits.from),
        },
      );
    case 'aft':
      return t(
        '{at, select, highest {{by} aft of the aft limit, {limit} at the envelope’s highest weight, {weight}} lowest {{by} aft of the aft limit, {limit} at the envelope’s lowest weight, {weight}} other {{by} aft of the aft limit, {limit} at {weight}}}',
        {
          ...values,
          by: say.arm(distance),
          limit: say.arm(limits.to),
        },
      );
    case 'between':
      return t('between two allowed ranges of arms at {weight}, {by} from the nearer at {arm}', {
        weight: say.weight(limitsAt),
        by: say.arm(distance),
        arm: say.arm(arm),
      });
  }
}

/** Stations over their most or under their least, a sentence each. */
export const stationTexts = ({ stationFindings }: CaseResult, say: Wording): string[] =>
  stationFindings.map(({ station, loaded, by }) => {
    const values = { station: station.name, loaded: say.weight(loaded), by: say.weight(Math.abs(by)) };
    return by > 0
      ? t('{station}: {loaded} is {by} over its most, {most}', { ...values, most: say.weight(station.max) })
      : t('{station}: {loaded} is {by} under its least, {least}', { ...values, least: say.weight(station.min) });
  });

/** What is out first between take-off and landing, or that nothing is. */
export function verdictText(result: CaseResult, say: Wording): string {
  const { takeoff, landing, firstOutside } = result;
  if (!takeoff.judgement.inside)
    return t('at take-off {judgement}', { judgement: judgementText(takeoff.judgement, say) });
  if (firstOutside && firstOutside.burnt > 0) {
    const fuel = say.weight(firstOutside.burnt);
    if (landing.judgement.inside)
      return t('leaves the envelope after {fuel} of fuel and is back inside at landing', { fuel });
    return t('leaves the envelope after {fuel} of fuel; at landing {judgement}', {
      fuel,
      judgement: judgementText(landing.judgement, say),
    });
  }
  const stations = stationTexts(result, say);
  if (stations.length > 0) return t('inside, but {stations}', { stations: stations.join('; ') });
  return t('inside from take-off to landing');
}

/** A loading that has no row on the sheet of cases is the one that is typed now. */
export const pictureCase = (judged: JudgedCase, units: UnitSystem): EnvelopeCase => ({
  ...envelopeCase(judged),
  name: judged.row === undefined ? t('Loading now') : judged.name,
  words: verdictText(judged.result, figuresIn(units)),
});
