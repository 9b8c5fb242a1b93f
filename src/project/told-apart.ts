/**
 * Names of components that Tarebook takes for one and that formulas of a sheet (SUMIFS, MATCH) tell apart: with a space
 * at an end, two spaces for one, or an accent typed in another way. A row whose component is spelled so is missing in
 * the sums that the sheets' own formulas make.
 */
import { nameKey } from '../core/names';
import { cellName } from '../sheet';
import { BUDGET, HARDWARE_FORM, JOINTS, PARTS } from './forms';
import type { Problem, SheetValues } from './problems';
import { readSheet } from './project-units';

export function namesToldApart(values: SheetValues): Problem[] {
  const first = new Map<string, string>();
  return [PARTS, JOINTS, HARDWARE_FORM, BUDGET].flatMap((form): Problem[] => {
    const read = readSheet<string>(values, form);
    const column = read?.columns['component'];
    if (!read || column === undefined) return [];
    const cells = values(read.sheet) ?? [];
    return read.rows.flatMap(({ row }): Problem[] => {
      const typed = cells[row]?.[column];
      if (typeof typed !== 'string' || typed.trim() === '') return [];
      const key = nameKey(typed);
      const spelled = first.get(key) ?? typed;
      first.set(key, spelled);
      // Formulas of a sheet take capitals and small letters for the same.
      if (typed.toLowerCase() === spelled.toLowerCase()) return [];
      const message = `is "${typed}", and "${spelled}" above: formulas such as SUMIFS count them apart. Type the name the same way, without extra spaces`;
      return [{ sheet: read.sheet, cell: cellName(row, column), message }];
    });
  });
}
