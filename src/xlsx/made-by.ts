/** Which version of Tarebook made a workbook, as a property of the document that spreadsheet programs keep and show. */
import { XlsxError } from './error';
import { unescapeText } from './read-strings';
import { Package } from './package';
import { XmlScanner } from './xml';
import type { Codec } from './zip';

/** The version that new workbooks name. @internal */
export const VERSION = '0.2';
/** The first one named itself nowhere. */
const FIRST_VERSION = '0.1';

const PART = 'docProps/custom.xml';
const PROPERTY = 'Tarebook';

/** What a new package needs for it. Source: ECMA-376 part 1, 22.3 (custom properties) and 15.2.12.2 (their part). */
export const MADE_BY = {
  part: PART,
  type: 'application/vnd.openxmlformats-officedocument.custom-properties+xml',
  relationship: 'custom-properties',
  xml: `<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/custom-properties" xmlns:vt="http://schemas.openxmlformats.org/officeDocument/2006/docPropsVTypes"><property fmtid="{D5CDD505-2E9C-101B-9397-08002B2CF9AE}" pid="2" name="${PROPERTY}"><vt:lpwstr>${VERSION}</vt:lpwstr></property></Properties>`,
} as const;

/** "0.2": which version made a workbook; undefined for one that another program made. @internal */
export function madeBy(bytes: Uint8Array, codec?: Codec): string | undefined {
  const file = new Package(bytes, codec);
  const named = file.has(PART) ? readable(() => propertyIn(file.text(PART))) : undefined;
  return named ?? (isOfFirst(file) ? FIRST_VERSION : undefined);
}

/** A sentence for a person who opens a workbook that another version made; undefined where this one did, or none of ours. */
export function otherVersionText(bytes: Uint8Array, codec?: Codec): string | undefined {
  const version = madeBy(bytes, codec);
  return version === undefined || version === VERSION
    ? undefined
    : `Made by Tarebook ${version}. Some functions give other numbers since then: the list of changes (CHANGELOG.md) has them.`;
}

/** What a property says is not worth refusing a workbook for. */
function readable<T>(read: () => T): T | undefined {
  try {
    return read();
  } catch (error) {
    if (error instanceof XlsxError) return undefined;
    throw error;
  }
}

function propertyIn(xml: string): string | undefined {
  const scanner = new XmlScanner(xml);
  let isOurs = false;
  for (let token = scanner.next(); token !== 'end'; token = scanner.next()) {
    if (token === 'open' && scanner.name === 'property') isOurs = scanner.attribute('name') === PROPERTY;
    else if (isOurs && token === 'text') return unescapeText(scanner.value).trim() || undefined;
  }
  return undefined;
}

/** Every other program describes the document; the first version did not, and its files have the functions' file names. */
function isOfFirst(file: Package): boolean {
  const parts = file.parts();
  return (
    !parts.some((name) => name.toLowerCase().startsWith('docprops/')) &&
    parts.some((name) => /^xl\/worksheets\/[^/]+\.xml$/i.test(name) && file.text(name).includes('_xldudf_TARE_'))
  );
}
