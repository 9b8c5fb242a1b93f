/** Numbers as the view says them: in a unit system, and in the place's way of writing numbers. All values are inch-pound. */
import { wordingOf, type Wording } from '../../../core/balance';
import { telling, type Dimension, type Quantities, type UnitSystem } from '../../../core/quantity';
import { writeNumber } from '../../locale';
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
