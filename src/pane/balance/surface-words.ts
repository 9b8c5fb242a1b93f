/** A control surface's balance in words. */
import { sayNumber } from '../../core/balance';
import type { SurfaceRow } from '../../workbook';
import { bare, inches, moment, pounds } from './numbers';

const heavy = (value: number): string => (value > 0 ? `${moment(value)}, trailing-edge heavy` : value < 0 ? `${moment(-value)}, leading-edge heavy` : '0 lb·in, in balance');

export function headline({ balance }: SurfaceRow): string {
  if (!balance) return 'not known yet';
  if (balance.heavy === 'neither') return 'in balance, as far as the hinges’ friction lets the scale tell';
  return heavy(balance.moment);
}

export function partsWords({ component, parts, hinge }: SurfaceRow): string {
  if (component === '') return 'Choose the component whose rows of the parts list are this surface.';
  if (hinge === undefined) return 'Type the arm of the hinge line.';
  if (!parts) return 'The parts list has no such component.';
  const left = parts.incomplete.length === 0 ? '' : ` Left out, without weight or arm: ${parts.incomplete.map(({ part }) => part).join(', ')}.`;
  return `${parts.rows.length} rows, ${pounds(parts.weight)}: ${heavy(parts.moment)}.${left}`;
}

export function measuredWords({ measured }: SurfaceRow): string {
  if (!measured) return 'Needs both readings and the scale’s arm.';
  return `${heavy(measured.moment)}; the hinges’ friction holds ± ${moment(measured.friction)}.`;
}

/** Whether the parts list and the scale say the same. */
export function agreementWords({ measured, parts, difference }: SurfaceRow): string {
  if (!measured || !parts || difference === undefined) return 'Is shown as soon as there are both.';
  const off = Math.abs(difference);
  const share = parts.moment === 0 ? '' : ` (${sayNumber((100 * off) / Math.abs(parts.moment), 0)} %)`;
  if (off <= measured.friction) return `The two agree: they differ by ${moment(off)}${share}, which is within the hinges’ friction.`;
  return `The scale says ${moment(off)}${share} ${difference > 0 ? 'more' : 'less'} than the parts list: ${difference > 0 ? 'paint, filler or hardware behind the hinge may be missing from the list' : 'the list may hold too much behind the hinge, or too little ahead of it'}.`;
}

export function counterweightWords({ balance, counterweight, ahead, share }: SurfaceRow): string {
  if (!balance) return 'Follows from the moment.';
  if (balance.moment <= 0) return 'None: the surface is not trailing-edge heavy.';
  if (counterweight === undefined || ahead === undefined) return 'Type how far ahead of the hinge line a counterweight can go.';
  const of = share === 100 ? '' : `, for ${bare(share, 0)} % of the moment`;
  return `${sayNumber(counterweight, 2)} lb at ${inches(ahead)} ahead of the hinge line${of}, from the ${balance.from === 'scale' ? 'measured moment' : 'parts list'}. The arm that carries it has weight of its own.`;
}
