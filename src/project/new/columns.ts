/** Where a form's columns stand on a new sheet, and what they are called and look like in a system of units. */
import type { Dimension, UnitSystem } from '../../core/quantity';
import { columnCharacters, textWidth } from '../../core/text-width';
import { columnName } from '../../sheet';
import type { FormColumn, SheetForm } from '../forms';
import { LOOKS, type Look } from './plan';

/** Letters of a sheet's columns by the form's keys. */
export type Letters<K extends string = string> = Readonly<Record<K, string>>;

/** Letters where the columns stand in the form's own order. */
export const lettersOf = <K extends string>(form: SheetForm<K>): Letters<K> =>
  Object.fromEntries(form.columns.map(({ key }, index) => [key, columnName(index)])) as Record<K, string>;

/** How the numbers of a dimension are shown: as many decimals as the figure deserves in either system. */
const FORMATS: Readonly<Record<UnitSystem, Readonly<Partial<Record<Dimension, string>>>>> = {
  'in-lb': { length: '0.00', area: '#,##0.00', weight: '0.0000', moment: '#,##0.00' },
  'mm-kg': { length: '#,##0.0', area: '#,##0', weight: '0.0000', moment: '#,##0.0' },
};

export const formatIn = (dimension: Dimension | undefined, units: UnitSystem): string | undefined =>
  dimension && FORMATS[units][dimension];

/** Typed cells stand on the light ground, computed ones do not. */
export const lookOf = (
  { computed, dimension }: Pick<FormColumn, 'computed' | 'dimension'>,
  units: UnitSystem,
  numberFormat = formatIn(dimension, units),
): Look => ({
  ...(computed ? {} : LOOKS.text),
  ...(numberFormat === undefined ? {} : { numberFormat }),
});

/** Pixels of the size in which a sheet's cells stand. */
const TEXT_PX = (11 * 96) / 72;

/** Characters that a label in bold takes, with room at its sides, in the widest of the common fonts. */
export const labelWidth = (label: string): number => Math.ceil(columnCharacters(textWidth(label, TEXT_PX, true)));

/** Characters that the longest of a cell's choices takes, beside the arrow that opens them; 0 without choices. */
export const choicesWidth = (choices: readonly string[] = []): number =>
  Math.max(0, ...choices.map((choice) => Math.ceil(columnCharacters(textWidth(choice, TEXT_PX), true))));

/** Names of a row's cells by the form's keys: "M6". */
export const rowCells = <K extends string>(letters: Letters<K>, row: number): Letters<K> =>
  Object.fromEntries(Object.entries<string>(letters).map(([key, letter]) => [key, `${letter}${row}`])) as Record<
    K,
    string
  >;
