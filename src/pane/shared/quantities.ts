/** Quantities as the pane writes them: in the workbook's units, and in the place's way of writing numbers. */
import { quantities, type Quantities, type UnitSystem } from '../../core/quantity';
import { writeNumber } from '../locale';

export const sayIn = (units: UnitSystem): Quantities => quantities(units, writeNumber);
