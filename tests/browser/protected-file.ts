import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';

/** The file with its sheet of this number (from 1) protected, which our own writer does not do. */
export function withProtection(bytes: Uint8Array, sheet: number): Uint8Array {
  const parts = unzipSync(bytes);
  const name = `xl/worksheets/sheet${sheet}.xml`;
  const xml = strFromU8(parts[name]!);
  parts[name] = strToU8(xml.replace(/<\/sheetData>|<sheetData\/>/, '$&<sheetProtection sheet="1"/>'));
  return zipSync(parts);
}
