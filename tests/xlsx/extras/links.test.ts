/** Links as other writers put them into a file. */
import { describe, expect, it } from 'vitest';
import { linkTarget } from '../../../src/hosts/bench/extras/link-target';
import { cellName } from '../../../src/sheet';
import { shiftWorkbook } from '../../../src/xlsx';
import { readExtras } from '../../../src/xlsx/extras/read';
import { withoutCells } from '../../../src/xlsx/extras/without-cells';
import { python } from '../../helpers/programs';
import { made } from './made';

const withXlsxwriter = python('xlsxwriter');
/** The scheme of addresses of files. */
const FILE = ['file:', '///'].join('');
const linksOf = (bytes: Uint8Array) =>
  readExtras(bytes)
    .get('Parts')!
    .links.map(({ area, target }) => [cellName(area.row, area.column), target]);

describe.skipIf(!withXlsxwriter)('links by XlsxWriter', () => {
  const bytes = made(withXlsxwriter, 'xlsxwriter-links');

  it('are read with where they lead', () => {
    expect(linksOf(bytes)).toEqual([
      ['A1', 'https://example.org/x#part'],
      ['A2', '#Lists!A5:B6'],
      ['A3', `${FILE}${String.raw`c:\plans\rib.xlsx`}`],
    ]);
  });

  it('follow their cells, and the cells that they lead to', () => {
    const bare = shiftWorkbook(withoutCells(bytes), [
      { kind: 'insert', sheet: 'Parts', axis: 'rows', at: 0, count: 1 },
      { kind: 'insert', sheet: 'Lists', axis: 'rows', at: 2, count: 3 },
      { kind: 'renameSheet', sheet: 'Lists', name: 'My lists' },
    ]);
    expect(linksOf(bare).slice(0, 2)).toEqual([
      ['A2', 'https://example.org/x#part'],
      ['A3', "#'My lists'!A8:B9"],
    ]);
  });
});

describe('a link leads', () => {
  const book = { sheets: ['Parts', 'My list'], sheet: 'Parts', names: [{ name: 'Here', refersTo: "'My list'!$B$3" }] };
  const kindOf = (written: string): string => linkTarget(written, book).kind;

  it.each(['https://example.org', ' HTTP://example.org/ü ', 'mailto:ann@example.org?subject=rib'])(
    'to a page: %s',
    (written) => expect(kindOf(written)).toBe('page'),
  );

  it.each(['#B4', '#Parts!A1:B2', "#'My list'!A1", "#'My%20list'!A1", '#PARTS!a1', '#Here'])(
    'to a place: %s',
    (written) => expect(kindOf(written)).toBe('place'),
  );

  it.each([
    'javascript:alert(1)',
    ' javascript:alert(1)',
    'java\tscript:alert(1)',
    '\u0001javascript:alert(1)',
    'JaVaScRiPt:alert(1)',
    'data:text/html,<script>alert(1)</script>',
    'vbscript:x',
    'blob:https://example.org/1',
    `${FILE}etc/passwd`,
    'ftp://example.org',
    String.raw`C:\plans\rib.pdf`,
    String.raw`\\server\plans`,
    'plans/rib.pdf',
    '//example.org/x',
    '#Gone!A1',
    '#nothing',
    '#',
    '#INDIRECT("A1")',
    '',
  ])('nowhere: %j', (written) =>
    expect(linkTarget(written, book)).toMatchObject({
      kind: 'refused',
      reason: expect.stringMatching(/\.$/) as string,
    }),
  );

  it('shows the address that is opened, not one that only looks like another', () => {
    expect(linkTarget('https://example.org@evil.example/', book).address).toBe('https://example.org@evil.example/');
    expect(linkTarget('https://exаmple.org/', book).address).toMatch(/^https:\/\/xn--/);
  });
});
