/** Figures as they are written in this view: in the workbook's units and the pane's way of writing numbers. */
import { inUnit, type Dimension, type Quantities, type Unit, type UnitSystem } from '../../../core/quantity';
import { cellNumber, t, writeNumber } from '../../locale';
import { sayIn } from '../../shared/quantities';

/** `value` in inch-pound units; '' where there is none. */
export type Write = (value: number | undefined) => string;

interface Figures {
  readonly quantities: Quantities;
  readonly weight: Write;
  /** One part's, to a place more. */
  readonly partWeight: Write;
  readonly arm: Write;
  readonly moment: Write;
  /** Weights to the hundredth of a pound; those of which none reaches a pound to the ten-thousandth. */
  weightLike(values: readonly (number | undefined)[]): Write;
  /** "lb" */
  unit(dimension: Dimension): string;
}

export function figures(system: UnitSystem): Figures {
  const say = sayIn(system);
  const write =
    (dimension: Dimension, places: number): Write =>
    (value) =>
      value === undefined ? '' : say.bare(value, dimension, places);
  return {
    quantities: say,
    weight: write('weight', 2),
    partWeight: write('weight', 3),
    arm: write('length', 2),
    moment: write('moment', 1),
    weightLike: (values) => write('weight', values.every((value) => Math.abs(value ?? 0) < 1) ? 4 : 2),
    unit: (dimension) => say.sign(dimension),
  };
}

export const money: Write = (cost) => (cost === undefined ? t('not known') : writeNumber(cost, 2));
export const percent = (value: number | undefined, places = 0): string =>
  value === undefined ? '' : `${writeNumber(value, places)}\u00a0%`;

/** A number with its sign, the minus a true minus. A number that shows as 0 has none. */
export function signed(value: number | undefined, write: (value: number) => string): string {
  if (value === undefined) return '';
  const text = write(Math.abs(value));
  return /[1-9]/.test(text) ? `${value > 0 ? '+' : '−'}${text}` : text;
}

/** A thickness as sheet is ordered: ".025", three places as a rule and more where it has them; "0.635" in millimetres. */
export function gauge(inches: number, unit: Unit | undefined): string {
  const text = cellNumber(inUnit(inches, unit));
  if (unit && unit.sign !== 'in') return text;
  const [whole, decimals = ''] = text.split(/[.,]/);
  return `${whole === '0' ? '' : whole}${text.includes(',') ? ',' : '.'}${decimals.padEnd(3, '0')}`;
}
