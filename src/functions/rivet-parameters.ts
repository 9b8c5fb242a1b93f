/** Parameters that the functions of rivets share. */
import { InputError } from '../core/input-error';
import { inInches, inMillimetres, rivet as readRivet, type LengthText, type Rivet } from '../core/fastener';
import { custom, number, type Lookalike, type UnitSystem } from './define';
import { length, thousandthsAbove } from './parameters';

/** A rivet by its designation. */
export const rivet = custom<Rivet>('rivet', {
  help: 'designation: "MS20470AD4-6", "MS20426AD3-3.5" (half size), "BLIND-AA-42"; AN470 and AN426 serve too',
  takes: 'a rivet as "MS20470AD4-6", "MS20426AD3-3.5" or "BLIND-AA-42"',
  read(cell) {
    if (typeof cell !== 'string')
      throw new InputError('rivet', cell, 'a rivet as "MS20470AD4-6", "MS20426AD3-3.5" or "BLIND-AA-42"');
    return readRivet(cell);
  },
});

const dashNumber: Lookalike = {
  when: (value) => Number.isInteger(value) && value > 0 && value <= 16,
  guess: (typed) => `${typed} looks like the diameter number of a designation: write ${typed}/32`,
};

/** Diameter of a rivet: inches, also as a fraction ("1/8"). */
export const rivetDiameter = number('diameter', {
  help: 'nominal diameter, also as a fraction: 0.125 or "1/8"',
  dimension: 'length',
  limits: { above: 0, below: 1 },
  lookalike: dashNumber,
});

/** How a grip is checked. */
export const GRIP = { dimension: 'length', limits: { above: 0, max: 4 }, lookalike: thousandthsAbove(4) } as const;

/** Sum of the sheets. */
export const grip = (help = 'thickness of everything that the rivet goes through') => number('grip', { help, ...GRIP });

export const pitch = length('pitch', 'from centre to centre of neighbouring rivets in a row');

/** How lengths are written in a text for whoever works in `units`. */
export const lengthText = (units: UnitSystem): LengthText => (units === 'mm-kg' ? inMillimetres : inInches);
