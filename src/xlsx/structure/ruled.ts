/** Rules of looks and of validation, in the main schema and in extensions: cells, and formulas that are written for the first of them. */
import type { XmlElement } from '../xml-tree';
import { areasText, parseAreas } from './areas';
import { formulaAfter, ruledAfter, type FormulaEdit } from './formulas';

export const RULED: ReadonlySet<string> = new Set(['conditionalFormatting', 'dataValidation']);

interface TextPlace {
  readonly text: string;
  put(text: string): void;
}

/** Lets a rule follow an edit; false where none of its cells is left. */
export function followRule(element: XmlElement, sheet: string, edit: FormulaEdit): boolean {
  const place = cellsOf(element);
  const formulas = formulasOf(element);
  const areas = place && parseAreas(place.text, sheet);
  if (!place || !areas) {
    // Of whole columns, and of ranges that cannot be read, the formulas are changed without regard to the cells.
    for (const one of formulas) one.put(formulaAfter(one.text, { sheet }, edit));
    return true;
  }
  const after = ruledAfter({ areas, formulas: formulas.map(({ text }) => text) }, sheet, edit);
  if (!after) return false;
  if (after.areas !== areas) {
    const text = areasText(after.areas);
    if (text !== areasText(areas)) place.put(text);
  }
  formulas.forEach((one, index) => one.put(after.formulas[index]!));
  return true;
}

function cellsOf(element: XmlElement): TextPlace | undefined {
  const own = element.get('sqref');
  if (own !== undefined) return { text: own, put: (text) => element.set('sqref', text) };
  const [child] = element.named('sqref');
  return child && textPlace(child);
}

function textPlace(element: XmlElement): TextPlace {
  const { text } = element;
  return {
    text,
    put(changed) {
      if (changed !== text) element.text = changed;
    },
  };
}

/** formula, formula1 and formula2 hold their text themselves, or in an element f. */
function formulasOf(element: XmlElement): TextPlace[] {
  const found: TextPlace[] = [];
  for (const one of element.walk()) {
    if (/^(formula[12]?|f)$/.test(one.name) && one.elements.length === 0) found.push(textPlace(one));
    const value = one.name === 'cfvo' ? one.get('val') : undefined;
    if (value !== undefined && Number.isNaN(Number(value)))
      found.push({ text: value, put: (text) => one.set('val', text) });
  }
  return found;
}
