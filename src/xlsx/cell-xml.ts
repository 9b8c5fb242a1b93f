/** A cell as a sheet's part spells it. */
import { CellError, cellName, rangeName, type Cell, type Spill } from '../sheet';
import type { IsName } from './bare-functions';
import { toFile } from './formula-text';
import { escapeText } from './read-strings';
import { escapeXml } from './xml';

export interface CellXml {
  readonly row: number;
  readonly column: number;
  /** Attributes beside the address, in order; a type among them is replaced where it stands. */
  readonly attributes: readonly (readonly [string, string])[];
  /** The formula's element, '' without one. */
  readonly formula: string;
  readonly value: Cell;
  /** Elements that follow the value and are kept as they are. */
  readonly rest?: string;
}

/** `prefix` is that of the sheet's own elements: mostly ''. */
export function cellXml(prefix: string, { row, column, attributes, formula, value, rest = '' }: CellXml): string {
  const { type, xml } = valueXml(prefix, value, formula !== '');
  const typed = attributes.some(([name]) => name === 't');
  const others = attributes
    .map(([name, text]) =>
      name === 't' ? typeXml(type || (text === 'n' && xml ? 'n' : '')) : ` ${name}="${escapeXml(text)}"`,
    )
    .join('');
  const tag = `${prefix}c r="${cellName(row, column)}"${others}${typed ? '' : typeXml(type)}`;
  const inside = formula + xml + rest;
  return inside ? `<${tag}>${inside}</${prefix}c>` : `<${tag}/>`;
}

const typeXml = (type: string): string => type && ` t="${type}"`;

/**
 * Texts are written into the cell itself (inlineStr; str for a formula's result) and not among the shared strings,
 * so that a changed text changes no other part.
 */
function valueXml(prefix: string, value: Cell, isResult: boolean): { type: string; xml: string } {
  const v = (text: string): string => `<${prefix}v>${text}</${prefix}v>`;
  if (typeof value === 'number' && Number.isFinite(value)) return { type: '', xml: v(String(value)) };
  if (typeof value === 'boolean') return { type: 'b', xml: v(value ? '1' : '0') };
  if (value instanceof CellError) return { type: 'e', xml: v(escapeXml(value.code)) };
  if (isResult) return { type: 'str', xml: v(escapeXml(escapeText(typeof value === 'string' ? value : ''))) };
  if (typeof value !== 'string') return { type: '', xml: '' };
  const text = escapeXml(escapeText(value));
  const space = text !== text.trim() || /[\n\t]| {2}/.test(text) ? ' xml:space="preserve"' : '';
  return { type: 'inlineStr', xml: `<${prefix}is><${prefix}t${space}>${text}</${prefix}t></${prefix}is>` };
}

export interface FormulaXml {
  readonly xml: string;
  /** True where the cell has to point at the dynamic-array record. */
  readonly dynamic: boolean;
}

/**
 * A typed formula as a file spells it. One that calls a TARE function, spills or computes over ranges has the
 * form in which a spreadsheet program binds it: an array formula over its spill; any other stays plain.
 */
export function formulaXml(
  prefix: string,
  formula: string,
  { row, column }: { readonly row: number; readonly column: number },
  spill: Spill | undefined,
  { isArray, isName }: { readonly isArray: boolean; readonly isName: IsName },
): FormulaXml {
  const text = escapeXml(toFile(formula, isName));
  if (!spill && !isArray) return { xml: `<${prefix}f>${text}</${prefix}f>`, dynamic: false };
  const ref = rangeName({ row, column, ...(spill ?? { rows: 1, columns: 1 }) });
  return { xml: `<${prefix}f t="array" ref="${ref}">${text}</${prefix}f>`, dynamic: !spill?.fixed };
}
