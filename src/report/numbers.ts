/** Numbers and columns of numbers as the report prints them. */
import { costText, type Cost } from '../core/price';
import { writeEnglish, type Dimension, type Quantities } from '../core/quantity';
import type { Column } from './html';

/** A dash where there is no number. */
export const orBlank = (value: number | undefined, places: number): string =>
  value === undefined ? '–' : writeEnglish(value, places);

/** A column of numbers without a dimension. */
export const numberColumn = <T>(
  head: string,
  unit: string | undefined,
  places: number,
  value: (row: T) => number | undefined,
): Column<T> => ({
  head,
  ...(unit === undefined ? {} : { unit }),
  number: true,
  cell: (row) => orBlank(value(row), places),
});

/** Columns of quantities given in inch-pound units, in the units of the workbook. */
export const quantityColumns =
  (say: Quantities) =>
  <T>(
    head: string,
    dimension: Dimension,
    places: number,
    value: (row: T) => number | undefined,
    unit = say.sign(dimension),
  ): Column<T> => ({
    head,
    unit,
    number: true,
    cell: (row) => {
      const quantity = value(row);
      return quantity === undefined ? '–' : say.bare(quantity, dimension, places);
    },
  });

/** A column of costs: one amount, one a currency, or that it is incomplete. */
export const costColumn = <T>(currency: string, costs: (row: T) => Cost): Column<T> => ({
  head: 'Cost',
  ...(currency === '' ? {} : { unit: currency }),
  number: true,
  cell: (row) => costText(costs(row), writeEnglish),
});
