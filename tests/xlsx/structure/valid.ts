/** Whether a saved workbook keeps the standard: its schemas, and the rules that a schema cannot say. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { memoryPages, validateXML } from 'xmllint-wasm';
import { parseRange } from '../../../src/sheet';
import { attribute, open, relationships } from './facts';

const FOLDER = new URL('../../../../shared/data/ooxml-xsd/transitional/', import.meta.url);

export const hasSchemas = existsSync(FOLDER);

/** Complaints of the schemas about sheets, tables, comments and the workbook. */
export async function schemaFaults(workbooks: ReadonlyMap<string, Uint8Array>): Promise<string[]> {
  const text = (name: string): string =>
    readFileSync(new URL(name, FOLDER), 'utf8').replace(/<xsd:import namespace="http:\/\/www.w3.org\/XML\/1998\/namespace"[^>]*>/, '').replaceAll(/<xsd:attribute ref="xml:space"[^>]*>/g, ''); // prettier-ignore
  const preload = readdirSync(FOLDER).filter((name) => name !== 'sml.xsd').map((name) => ({ fileName: name, contents: text(name) })); // prettier-ignore
  const xml = [...workbooks].flatMap(([name, bytes]) =>
    [...open(bytes).parts]
      .filter(([part]) => /^xl\/(workbook\.xml|worksheets\/[^/]+\.xml|tables\/|comments)/.test(part))
      .map(([part, contents]) => ({
        fileName: `${name.replace(/\W+/g, '-')}-${part.replaceAll('/', '-')}`,
        // What is of later schemas stands under a prefix that says it may be passed over.
        contents: contents.replace(/<extLst[^]*?<\/extLst>/g, '').replaceAll(/ xml:space="preserve"/g, '').replaceAll(/ (?:mc:Ignorable|x14ac:dyDescent|xr:uid)="[^"]*"/g, ''), // prettier-ignore
      })),
  );
  const { errors } = await validateXML({
    xml,
    schema: [{ fileName: 'sml.xsd', contents: text('sml.xsd') }],
    preload,
    initialMemoryPages: 4 * memoryPages.MiB * 16,
    maxMemoryPages: 16 * memoryPages.MiB * 32,
  });
  return errors.map(({ rawMessage }) => rawMessage);
}

/** Breaches of what the standard says in words. */
export function ruleFaults(bytes: Uint8Array): string[] {
  const { sheets, parts } = open(bytes);
  const faults: string[] = [];
  for (const { name, part } of sheets) {
    const xml = parts.get(part)!;
    const merges = [...xml.matchAll(/<mergeCell\s[^>]*>/g)].map(([tag]) => parseRange(attribute(tag, 'ref')!, name)!);
    // ECMA-376 part 1, 18.3.1.55: merged cells do not overlap.
    merges.forEach((one, index) => {
      for (const other of merges.slice(index + 1))
        if (
          one.row < other.row + other.rows &&
          other.row < one.row + one.rows &&
          one.column < other.column + other.columns &&
          other.column < one.column + one.columns
        )
          // prettier-ignore
          faults.push(`${name}: merged cells overlap`);
    });
    // 18.3.1.73, 18.3.1.4: rows and cells stand in order, each once.
    let last = 0;
    for (const [, row] of xml.matchAll(/<row r="(\d+)"/g)) {
      if (Number(row) <= last) faults.push(`${name}: row ${row} out of order`);
      last = Number(row);
    }
    for (const [, count, inner] of xml.matchAll(/<(?:mergeCells|dataValidations|rowBreaks|colBreaks|tableParts) count="(\d+)"[^>]*>(.*?)<\/(?:mergeCells|dataValidations|rowBreaks|colBreaks|tableParts)>/gs)) // prettier-ignore
      if (Number(count) !== [...inner!.matchAll(/<(?:mergeCell|dataValidation|brk|tablePart)\b/g)].length) faults.push(`${name}: a count of ${count}`); // prettier-ignore
    for (const { type, target } of relationships(parts, part).values())
      if (type === 'table') faults.push(...tableFaults(name, xml, parts.get(target)!, parts));
  }
  return faults;
}

/** 18.5.1.2, 18.5.1.3: columns are as many as the range has, their names unique, each the text of its header cell. */
function tableFaults(sheet: string, xml: string, table: string, parts: ReadonlyMap<string, string>): string[] {
  const root = /<table\s[^>]*>/.exec(table)![0];
  const range = parseRange(attribute(root, 'ref')!, sheet)!;
  const names = [...table.matchAll(/<tableColumn\s[^>]*>/g)].map(([tag]) => attribute(tag, 'name')!);
  const faults: string[] = [];
  if (names.length !== range.columns) faults.push(`${sheet}: ${names.length} columns in ${attribute(root, 'ref')}`);
  if (new Set(names.map((name) => name.toLowerCase())).size !== names.length)
    faults.push(`${sheet}: names of columns repeat`);
  if (attribute(root, 'headerRowCount') === '0') return faults;
  const strings = [...(parts.get('xl/sharedStrings.xml') ?? '').matchAll(/<si>(.*?)<\/si>/gs)].map(([, inner]) => [...inner!.matchAll(/<t\b[^>]*>([^<]*)</g)].map(([, text]) => text).join('')); // prettier-ignore
  names.forEach((name, index) => {
    const column = String.fromCharCode(65 + range.column + index);
    const cell = new RegExp(`<c r="${column}${range.row + 1}"[^>]*>.*?</c>`, 's').exec(xml)?.[0] ?? '';
    const text = /t="s"/.test(cell)
      ? strings[Number(/<v>(\d+)</.exec(cell)?.[1])]
      : /<t\b[^>]*>([^<]*)</.exec(cell)?.[1];
    if (text !== name) faults.push(`${sheet}: header ${column}${range.row + 1} is ${text}, its column ${name}`);
  });
  return faults;
}
