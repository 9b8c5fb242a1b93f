/** Numbers, judged loadings and control surfaces as the view says them: in a unit system, the pane's language and its way of writing numbers. All values are inch-pound. */
import {
  TOLERANCE,
  wordingOf,
  type CaseResult,
  type Finding,
  type Judgement,
  type Wording,
} from '../../../core/balance';
import { telling, type Dimension, type Quantities, type UnitSystem } from '../../../core/quantity';
import type { EnvelopeCase } from '../../../pictures';
import type { JudgedCase, SurfaceRow } from '../../../project';
import { envelopeCase } from '../../../report';
import { mark, t, writeNumber, type Marked } from '../../locale';
import { sayIn } from '../../shared/quantities';

export type Write = (value: number) => string;

export interface Figures extends Wording {
  readonly quantities: Quantities;
  /** "1,234.5 lb·in" */
  readonly moment: Write;
  /** Without the unit, where the column's head has it. */
  readonly bare: { readonly weight: Write; readonly arm: Write; readonly moment: Write };
  /** A weight without its unit as it is typed: 250, 72.5. */
  readonly plain: Write;
  /** "lb" */
  unit(dimension: Dimension): string;
}

export function figuresIn(units: UnitSystem): Figures {
  const say = sayIn(units);
  // A decimal is about what a scale for airplanes shows, in pounds and in kilograms.
  const weightPlaces = units === 'mm-kg' ? 0 : 1;
  return {
    ...wordingOf(say),
    quantities: say,
    moment: (value) => say.tell(value, 'moment', 1),
    bare: {
      weight: bareIn(say, 'weight', weightPlaces),
      arm: bareIn(say, 'length', 2),
      moment: bareIn(say, 'moment', 1),
    },
    plain: (value) => {
      const tenths = Math.round(say.to(value, 'weight') * 10) / 10;
      return writeNumber(tenths, Number.isInteger(tenths) ? 0 : 1);
    },
    unit: (dimension) => say.sign(dimension),
  };
}

/** A value in the system without its unit; `places` are those of the inch-pound figure. */
export const bareIn =
  (say: Quantities, dimension: Dimension, places: number): Write =>
  (value) =>
    telling(writeNumber)(say.to(value, dimension), say.places(dimension, places));

export const percent = (value: number): string => writeNumber(value, 1);

/** To be shown once where a limit is judged. */
export const limitsCaution = (): string =>
  t('Limits come from the aircraft’s own documents; an estimate is not a weighing.');

/** "inside, 2.50 in aft of the forward limit and 0.40 in forward of the aft limit", or what is outside. */
export const judgementText = (judgement: Judgement, say: Wording): string =>
  judgement.inside
    ? t('inside, {margins}', { margins: marginsText(judgement, say) })
    : t('outside: {findings}', {
        findings: judgement.findings.map((finding) => findingText(finding, judgement, say)).join('; '),
      });

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

const FINDINGS: Readonly<Record<Finding['kind'], Marked>> = {
  heavy: mark('{by} over the highest weight, {limit}'),
  light: mark('{by} under the lowest weight, {limit}'),
  forward: mark(
    '{at, select, highest {{by} forward of the forward limit, {limit} at the envelope’s highest weight, {weight}} lowest {{by} forward of the forward limit, {limit} at the envelope’s lowest weight, {weight}} other {{by} forward of the forward limit, {limit} at {weight}}}',
  ),
  aft: mark(
    '{at, select, highest {{by} aft of the aft limit, {limit} at the envelope’s highest weight, {weight}} lowest {{by} aft of the aft limit, {limit} at the envelope’s lowest weight, {weight}} other {{by} aft of the aft limit, {limit} at {weight}}}',
  ),
  between: mark('between two allowed ranges of arms at {weight}, {by} from the nearer at {arm}'),
};

function findingText(
  { kind, by: distance }: Finding,
  { weight, arm, limits, limitsAt }: Judgement,
  say: Wording,
): string {
  /** The weight whose limits are shown: the loading's own, or the highest or lowest of the envelope where that is exceeded. */
  const at = limitsAt === weight ? 'own' : weight > limitsAt ? 'highest' : 'lowest';
  const isWeight = kind === 'heavy' || kind === 'light';
  return t(FINDINGS[kind], {
    at,
    by: isWeight ? say.weight(distance) : say.arm(distance),
    limit: isWeight ? say.weight(limitsAt) : say.arm(kind === 'forward' ? limits.from : limits.to),
    weight: say.weight(limitsAt),
    arm: say.arm(arm),
  });
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
    return landing.judgement.inside
      ? t('leaves the envelope after {fuel} of fuel and is back inside at landing', { fuel })
      : t('leaves the envelope after {fuel} of fuel; at landing {judgement}', {
          fuel,
          judgement: judgementText(landing.judgement, say),
        });
  }
  const stations = stationTexts(result, say);
  return stations.length > 0
    ? t('inside, but {stations}', { stations: stations.join('; ') })
    : t('inside from take-off to landing');
}

/** A loading that has no row on the sheet of cases is the one that is typed now. */
export const pictureCase = (judged: JudgedCase, units: UnitSystem): EnvelopeCase => ({
  ...envelopeCase(judged),
  name: judged.row === undefined ? t('Loading now') : judged.name,
  words: verdictText(judged.result, figuresIn(units)),
});

// A control surface's balance. Surfaces are light: weights are said to a place more than an airplane's.

const momentIn = (value: number, say: Quantities): string => say.tell(value, 'moment', 1);

function heavy(value: number, say: Quantities): string {
  const moment = value === 0 ? say.say(0, 'moment', 0) : momentIn(Math.abs(value), say);
  if (value === 0) return t('{moment}, in balance', { moment });
  return value > 0 ? t('{moment}, trailing-edge heavy', { moment }) : t('{moment}, leading-edge heavy', { moment });
}

export function headline({ balance }: SurfaceRow, say: Quantities): string {
  if (!balance) return t('not known yet');
  if (balance.heavy === 'neither') return t('in balance, as far as the hinges’ friction lets the scale tell');
  return heavy(balance.moment, say);
}

export function partsWords({ component, parts, hinge }: SurfaceRow, say: Quantities): string {
  if (component === '') return t('Choose the component whose rows of the parts list are this surface.');
  if (hinge === undefined) return t('Type the arm of the hinge line.');
  if (!parts) return t('The parts list has no such component.');
  const sum = t('{count, plural, one {# row} other {# rows}}, {weight}: {moment}.', {
    count: parts.rows.length,
    weight: say.tell(parts.weight, 'weight', 1),
    moment: heavy(parts.moment, say),
  });
  return parts.incomplete.length === 0
    ? sum
    : `${sum} ${t('Left out, without weight or arm: {parts}.', { parts: parts.incomplete.map(({ part }) => part).join(', ') })}`;
}

export const measuredWords = ({ measured }: SurfaceRow, say: Quantities): string =>
  measured
    ? t('{moment}; the hinges’ friction holds ± {friction}.', {
        moment: heavy(measured.moment, say),
        friction: momentIn(measured.friction, say),
      })
    : t('Needs both readings and the scale’s arm.');

/** Whether the parts list and the scale say the same. */
export function agreementWords({ measured, parts, difference }: SurfaceRow, say: Quantities): string {
  if (!measured || !parts || difference === undefined) return t('Shown when both are there.');
  const off = Math.abs(difference);
  const moment = momentIn(off, say);
  const by =
    parts.moment === 0
      ? moment
      : t('{moment} ({share} %)', { moment, share: writeNumber((100 * off) / Math.abs(parts.moment), 0) });
  if (off <= measured.friction)
    return t('The two agree: they differ by {by}, which is within the hinges’ friction.', { by });
  if (difference > 0)
    return t(
      'The scale says {by} more than the parts list: paint, filler or hardware behind the hinge may be missing from the list.',
      { by },
    );
  return t(
    'The scale says {by} less than the parts list: the list may hold too much behind the hinge, or too little ahead of it.',
    { by },
  );
}

export function counterweightWords({ balance, counterweight, ahead, share }: SurfaceRow, say: Quantities): string {
  if (!balance) return t('Computed from the moment.');
  if (balance.moment <= 0) return t('None: the surface is not trailing-edge heavy.');
  if (counterweight === undefined || ahead === undefined)
    return t('Type how far ahead of the hinge line a counterweight can go.');
  const values = {
    weight: say.tell(counterweight, 'weight', 2),
    arm: say.tell(ahead, 'length', 2),
    from: balance.from,
  };
  const needed =
    share === 100
      ? t(
          '{from, select, scale {{weight} at {arm} ahead of the hinge line, from the measured moment.} other {{weight} at {arm} ahead of the hinge line, from the parts list.}}',
          values,
        )
      : t(
          '{from, select, scale {{weight} at {arm} ahead of the hinge line, for {share} % of the measured moment.} other {{weight} at {arm} ahead of the hinge line, for {share} % of the moment of the parts list.}}',
          { ...values, share: writeNumber(share, 0) },
        );
  return `${needed} ${t('The arm that carries it has its own weight.')}`;
}
