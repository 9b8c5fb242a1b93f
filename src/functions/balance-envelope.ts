/** The envelope as a range of cells, and how a loading against it is said in the user's units. */
import { makeEnvelope, wordingOf, type Envelope, type Load, type Wording } from '../core/balance';
import { InputError } from '../core/input-error';
import { quantities } from '../core/quantity';
import { block, number, unitSign, type Parameter, type UnitSystem } from './define';
import { CellError, isBlank, type Cell, type Matrix } from '../sheet/cell';

const arm = number('arm', { help: '', dimension: 'length', limits: { min: -12_000, max: 12_000 } });
const weight = number('weight', { help: '', dimension: 'weight', limits: { above: 0, max: 1e6 } });

const takes = (units: UnitSystem): string =>
  `two columns, arm (${unitSign('length', units)}) and weight (${unitSign('weight', units)}), of three or more corners in order around it`;

/** Corners of the envelope: arm, then weight; a header row is passed over, and blank rows (0 and 0 where a host gives 0 for a blank cell). */
export const envelope: Parameter<Envelope> = block('envelope', {
  help: 'corners in order around it, either way, two columns: arm, then weight; edges and corners count as inside',
  dimension: 'weight',
  takes,
  read(cells: Matrix, units: UnitSystem) {
    if ((cells[0]?.length ?? 0) !== 2) throw new InputError('envelope', cells, takes(units));
    const corners: Load[] = [];
    for (const [index, row] of cells.entries()) {
      const [first = null, second = null] = row;
      if (isNothing(first) && isNothing(second)) continue;
      if (index === 0 && isWord(first) && isWord(second)) continue;
      const place = `envelope, row ${index + 1}`;
      corners.push({ arm: readAt(place, first, arm, units), weight: readAt(place, second, weight, units) });
    }
    return makeEnvelope(corners);
  },
});

const isNothing = (cell: Cell): boolean => isBlank(cell) || cell === 0;
const isWord = (cell: Cell): boolean => typeof cell === 'string' && !/^[\s+\-.\d]/.test(cell);

function readAt(place: string, cell: Cell, one: Parameter<number>, units: UnitSystem): number {
  const takesOne = `${one.name} in ${one.takes(units)}`;
  if (isBlank(cell) || cell instanceof CellError)
    throw new InputError(place, cell instanceof CellError ? cell.code : null, takesOne);
  try {
    return one.read(cell, units);
  } catch (error) {
    if (error instanceof InputError) throw new InputError(place, error.got, takesOne, error.guess);
    throw error;
  }
}

/** Weights and arms in the user's units, with their sign. */
export const wordingIn = (units: UnitSystem): Wording => WORDINGS[units];

const WORDINGS: Readonly<Record<UnitSystem, Wording>> = {
  'in-lb': wordingOf(quantities('in-lb')),
  'mm-kg': wordingOf(quantities('mm-kg')),
};
