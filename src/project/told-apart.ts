/**
 * Names of components that Tarebook takes for one and that formulas of a sheet (SUMIFS, MATCH) tell apart: with a space
 * at an end, two spaces for one, or an accent typed in another way. A row whose component is spelled so is missing in
 * the sums that the sheets' own formulas make.
 */
import { nameKey } from '../core/names';
import { cellName } from '../sheet';
import { BUDGET, HARDWARE_FORM, JOINTS } from './forms';
import type { Problem, SheetValues } from './problems';
import { readSheet } from './project-units';
import { placeOfRow, type FormSheet } from './rows';

/** @param parts the lists of parts as they are read already */
export function namesToldApart(values: SheetValues, parts: FormSheet<string>): Problem[] {
  const first = new Map<string, string>();
  const others = [JOINTS, HARDWARE_FORM, BUDGET].flatMap((form) => readSheet<string>(values, form) ?? []);
  return [parts, ...others].flatMap((form) =>
    form.rows.flatMap((listed): Problem[] => {
      const { head, row } = placeOfRow(form, listed.row);
      const column = head.columns['component'];
      const typed = column === undefined ? undefined : values(head.sheet)?.[row]?.[column];
      if (column === undefined || typeof typed !== 'string' || typed.trim() === '') return [];
      const key = nameKey(typed);
      const spelled = first.get(key) ?? typed;
      first.set(key, spelled);
      // Formulas of a sheet take capitals and small letters for the same.
      if (typed.toLowerCase() === spelled.toLowerCase()) return [];
      const message = `is "${typed}", and "${spelled}" above: formulas such as SUMIFS count them apart. Type the name the same way, without extra spaces`;
      return [{ sheet: head.sheet, cell: cellName(row, column), message }];
    }),
  );
}
