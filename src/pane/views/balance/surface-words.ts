/** A control surface's balance in words. Surfaces are light: weights are said to a place more than an airplane's. */
import type { Quantities } from '../../../core/quantity';
import type { SurfaceRow } from '../../../project';
import { t, writeNumber } from '../../locale';

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
  if (parts.incomplete.length === 0) return sum;
  return `${sum} ${t('Left out, without weight or arm: {parts}.', { parts: parts.incomplete.map(({ part }) => part).join(', ') })}`;
}

export function measuredWords({ measured }: SurfaceRow, say: Quantities): string {
  if (!measured) return t('Needs both readings and the scale’s arm.');
  return t('{moment}; the hinges’ friction holds ± {friction}.', {
    moment: heavy(measured.moment, say),
    friction: momentIn(measured.friction, say),
  });
}

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
