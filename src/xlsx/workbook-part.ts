/** The workbook's own part: which sheets, names and helping parts there are. */
import { XlsxError } from './error';
import type { Package } from './package';
import { isTrue, XmlScanner } from './xml';

export interface WorkbookPart {
  /** Name of the part itself: mostly xl/workbook.xml. */
  readonly part: string;
  readonly sheets: readonly { readonly name: string; readonly part: string; readonly hidden: boolean }[];
  readonly names: readonly { readonly name: string; readonly refersTo: string; readonly scope: string | undefined }[];
  readonly dates1904: boolean;
  readonly styles: string | undefined;
  readonly strings: string | undefined;
  readonly theme: string | undefined;
  readonly calculationChain: string | undefined;
  readonly metadata: string | undefined;
}

export function readWorkbookPart(file: Package): WorkbookPart {
  const [part] = file.related('', 'officeDocument');
  if (!part) throw new XlsxError('not-a-workbook', 'The file is an Office or zip file, but no workbook');
  refuseOtherTypes(file.contentType(part) ?? '');
  const byId = new Map(file.relationships(part).map((one) => [one.id, one]));
  const target = (type: string): string | undefined => file.related(part, type)[0];
  const sheets: { name: string; part: string; hidden: boolean }[] = [];
  /** Names of all sheets by position: chart sheets count too. */
  const positions: string[] = [];
  const names: { name: string; refersTo: string; local: string | undefined }[] = [];
  let dates1904 = false;
  const scanner = new XmlScanner(file.text(part));
  for (const token of scanner.knownTags()) {
    if (scanner.name === 'workbookPr') dates1904 = isTrue(scanner.attribute('date1904'));
    else if (scanner.name === 'sheet') {
      const sheet = readSheetEntry(scanner);
      const relationship = byId.get(sheet.id);
      positions.push(sheet.name);
      if (relationship?.type === 'worksheet' && relationship.target)
        sheets.push({ name: sheet.name, hidden: sheet.hidden, part: relationship.target });
    } else if (scanner.name === 'definedName' && token === 'open') {
      const name = scanner.attribute('name') ?? '';
      const local = scanner.attribute('localSheetId');
      // Print areas, filters and their like belong to the program that made them.
      const refersTo = scanner.textContent();
      if (!/^_xlnm\./i.test(name)) names.push({ name, refersTo, local });
    }
  }
  return {
    part,
    sheets,
    names: names.map(({ name, refersTo, local }) => ({
      name,
      refersTo,
      scope: local === undefined ? undefined : positions[Number(local)],
    })),
    dates1904,
    styles: target('styles'),
    strings: target('sharedStrings'),
    theme: target('theme'),
    calculationChain: target('calcChain'),
    metadata: target('sheetMetadata'),
  };
}

function readSheetEntry(scanner: XmlScanner): { name: string; id: string; hidden: boolean } {
  const sheet = { name: '', id: '', hidden: false };
  scanner.attributes((key, value) => {
    if (key === 'name') sheet.name = value;
    else if (key === 'id' || key.endsWith(':id')) sheet.id = value;
    else if (key === 'state') sheet.hidden = value !== 'visible';
  });
  return sheet;
}

function refuseOtherTypes(type: string): void {
  if (/macroEnabled/i.test(type))
    throw new XlsxError('macros', 'The workbook holds macros (.xlsm): save it as .xlsx first');
  if (/sheet\.binary/i.test(type))
    throw new XlsxError('binary', 'The workbook is in the binary form (.xlsb): save it as .xlsx first');
  if (!/spreadsheetml/i.test(type))
    throw new XlsxError('not-a-workbook', 'The file is an Office file, but no workbook');
}
