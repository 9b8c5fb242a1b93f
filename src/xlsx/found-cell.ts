/** A cell of a sheet's part as it is found before it is changed. */
import type { XmlScanner } from './xml';

export interface Found {
  readonly attributes: (readonly [string, string])[];
  formula: string;
  formulaText: string;
  formulaAttributes: { name: string; value: string; from: number; to: number }[];
  rest: string;
}

export const NOTHING: Found = { attributes: [], formula: '', formulaText: '', formulaAttributes: [], rest: '' };

/** Reads the cell whose start tag was just read, to its end. */
export function findCell(scanner: XmlScanner, open: boolean): Found {
  const { xml } = scanner;
  const found: Found = { attributes: [], formula: '', formulaText: '', formulaAttributes: [], rest: '' };
  scanner.attributes((name, value) => {
    if (name !== 'r') found.attributes.push([name, value]);
  });
  while (open) {
    const token = scanner.next();
    if (token === 'close') return found;
    if (token === 'text') continue;
    const { start, name } = scanner;
    if (name === 'f') {
      scanner.attributes((key, value, from, to) =>
        found.formulaAttributes.push({ name: key, value, from: from - start, to: to - start }),
      );
      if (token === 'open') found.formulaText = scanner.textContent();
      found.formula = xml.slice(start, scanner.end);
    } else {
      if (token === 'open') scanner.skip();
      if (name !== 'v' && name !== 'is') found.rest += xml.slice(start, scanner.end);
    }
  }
  return found;
}

/** The formula's element with another extent. */
export function withRef({ formula, formulaAttributes }: Found, ref: string): string {
  const old = formulaAttributes.find(({ name }) => name === 'ref');
  return old ? `${formula.slice(0, old.from)} ref="${ref}"${formula.slice(old.to)}` : formula;
}
