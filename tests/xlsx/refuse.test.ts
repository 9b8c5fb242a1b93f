/** Files that fight back: each is refused with one clear line, or read without harm. */
import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { patchWorkbook, readWorkbook, XlsxError, type XlsxReason } from '../../src/xlsx';
import { fixture, partOf, rowsOf, workbookOf } from './parts';

function refusal(bytes: Uint8Array): { reason: XlsxReason; message: string } {
  try {
    readWorkbook(bytes);
  } catch (error) {
    if (error instanceof XlsxError) return { reason: error.reason, message: error.message };
    throw error;
  }
  throw new Error('the file was read');
}

const types = (type: string): string =>
  partOf(workbookOf(''), '[Content_Types].xml')
    .replace(/^<\?.*?\?>/, '')
    .replace('application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml', type);
const compoundFile = (text: string): Uint8Array =>
  new Uint8Array(
    Buffer.concat([
      Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]),
      Buffer.alloc(512),
      Buffer.from(text, 'utf16le'),
    ]),
  );
const nested = (depth: number): string => '<a>'.repeat(depth) + '</a>'.repeat(depth);
const valid = fixture('xlsxwriter');

describe('refused', () => {
  it.each<[string, () => Uint8Array, XlsxReason, RegExp]>([
    ['an empty file', () => new Uint8Array(), 'truncated', /empty/],
    ['a text', () => strToU8('part,length'), 'not-a-workbook', /no \.xlsx workbook/],
    ['a zip of something else', () => zipSync({ 'a.txt': strToU8('x') }), 'not-a-workbook', /no workbook/],
    [
      'a text document',
      () =>
        workbookOf('', {
          '[Content_Types].xml': types(
            'application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml',
          ),
        }),
      'not-a-workbook',
      /no workbook/,
    ],
    ['an encrypted workbook', () => compoundFile('EncryptedPackage'), 'encrypted', /without a password/],
    ['the old binary form', () => compoundFile('Workbook'), 'old-format', /\.xls\b/],
    [
      'a workbook with macros',
      () => workbookOf('', { '[Content_Types].xml': types('application/vnd.ms-excel.sheet.macroEnabled.main+xml') }),
      'macros',
      /macros/,
    ],
    [
      'the new binary form',
      () => workbookOf('', { '[Content_Types].xml': types('application/vnd.ms-excel.sheet.binary.macroEnabled.main') }),
      'macros',
      /macros/,
    ],
    ['a sheet that is not well formed', () => workbookOf('<row r="1"><c r="A1"><v>1</row>'), 'corrupt', /well-formed/],
    [
      'a sheet that ends too early',
      () => workbookOf('', { 'xl/worksheets/sheet1.xml': '<worksheet><sheetData><row r="1"><c' }),
      'corrupt',
      /well-formed/,
    ],
    [
      'a missing sheet',
      () => workbookOf('', { 'xl/_rels/workbook.xml.rels': '<Relationships/>' }),
      'corrupt',
      /no sheets/,
    ],
    [
      'a row that no sheet has',
      () => workbookOf('<row r="1048577"><c r="A1048577"><v>1</v></c></row>'),
      'corrupt',
      /out of bounds/,
    ],
    [
      'elements nested without end',
      () => workbookOf('', { 'xl/worksheets/sheet1.xml': nested(300) }),
      'too-deep',
      /nests/,
    ],
    [
      'entities that multiply',
      () =>
        workbookOf('', {
          'xl/worksheets/sheet1.xml':
            '<!DOCTYPE w [<!ENTITY a "aa">]><worksheet><sheetData><row r="1"><c r="A1" t="str"><v>&a;</v></c></row></sheetData></worksheet>',
        }),
      'unsupported',
      /document type/,
    ],
    [
      'a part in another encoding',
      () => withPart('xl/worksheets/sheet1.xml', new Uint8Array([0xff, 0xfe, 0x3c, 0x00])),
      'unsupported',
      /UTF-8/,
    ],
    [
      'a part that unpacks to a thousand times its size',
      () => withPart('xl/worksheets/sheet1.xml', new Uint8Array(64 * 2 ** 20)),
      'too-large',
      /250 times/,
    ],
    ['many parts that share one place in the file', () => overlapping(200), 'too-large', /larger than 1024 MB/],
    ['more parts than a workbook has', () => overlapping(20_001, 1), 'too-large', /more than 20000 parts/],
    ['a size that is not true', () => lying(), 'corrupt', /check sum|unpacked/],
    ['two parts of one name', () => twice(), 'corrupt', /twice/],
  ])('%s', (_what, make, reason, message) => {
    const refused = refusal(make());
    expect(refused).toMatchObject({ reason });
    expect(refused.message).toMatch(message);
    expect(refused.message).not.toContain('\n');
  });

  it('a file cut short, wherever', () => {
    for (const share of [0.01, 0.1, 0.5, 0.9, 0.99, 0.999])
      expect(['truncated', 'corrupt']).toContain(refusal(valid.slice(0, Math.floor(valid.length * share))).reason);
  });

  it('a file with a byte turned, or read as what it says', () => {
    for (let at = 0; at < valid.length; at += 97) {
      const turned = valid.slice();
      turned[at]! ^= 0x55;
      try {
        readWorkbook(turned);
      } catch (error) {
        expect(error).toBeInstanceOf(XlsxError);
      }
    }
  });
});

describe('read without harm', () => {
  it('names that are keys of every object', () => {
    const rows = '<row r="1"><c r="A1" t="str"><f>__proto__+constructor</f><v>toString</v></c></row>';
    const names =
      '<definedNames><definedName name="__proto__">Parts!$A$1</definedName><definedName name="constructor">Parts!$A$1</definedName></definedNames>';
    const workbook = partOf(workbookOf(''), 'xl/workbook.xml')
      .replace(/^<\?.*?\?>/, '')
      .replace('name="Parts"', 'name="__proto__"')
      .replace('</sheets>', `</sheets>${names}`);
    const model = readWorkbook(workbookOf(rows, { 'xl/workbook.xml': workbook }));
    expect(model.sheets[0]!.name).toBe('__proto__');
    expect(model.names.map(({ name }) => name)).toEqual(['__proto__', 'constructor']);
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
    const patched = patchWorkbook(workbookOf(rows, { 'xl/workbook.xml': workbook }), {
      sheets: [{ sheet: '__proto__', cells: [{ row: 1, column: 0, value: 1 }] }],
    });
    expect(rowsOf(patched)).toContain('<row r="2"><c r="A2"><v>1</v></c></row>');
  });

  it('a thousand sheets', () => {
    const numbers = Array.from({ length: 1000 }, (_one, index) => index + 1);
    const parts: Record<string, string> = {};
    for (const n of numbers)
      parts[`xl/worksheets/sheet${n}.xml`] =
        `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1"><c r="A1"><v>${n}</v></c></row></sheetData></worksheet>`;
    parts['xl/workbook.xml'] =
      `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets>${numbers.map((n) => `<sheet name="S${n}" sheetId="${n}" r:id="rId${n}"/>`).join('')}</sheets></workbook>`;
    parts['xl/_rels/workbook.xml.rels'] =
      `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${numbers.map((n) => `<Relationship Id="rId${n}" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet${n}.xml"/>`).join('')}</Relationships>`;
    const bytes = workbookOf('', parts);
    expect(readWorkbook(bytes).sheets.map(({ cells }) => cells[0]![0]!.value)).toEqual(numbers);
    expect(
      readWorkbook(patchWorkbook(bytes, { sheets: [{ sheet: 'S777', cells: [{ row: 0, column: 0, value: 0 }] }] }))
        .sheets[776]!.cells[0]![0]!.value,
    ).toBe(0);
  });

  it('cells at the corners of a sheet', () => {
    const model = readWorkbook(workbookOf('<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>'));
    expect(model.sheets[0]!.cells[1_048_575]![16_383]!.value).toBe(1);
  });

  it('a sheet in single quotes, with comments and CDATA', () => {
    const rows =
      "<!-- <c r='Z9'> --><row r='1'><c r='A1' t='str'><f><![CDATA[B1&\"<x>\"]]></f><v><![CDATA[a<b]]></v></c></row>";
    expect(readWorkbook(workbookOf(rows)).sheets[0]!.cells[0]![0]).toMatchObject({ value: 'a<b', formula: 'B1&"<x>"' });
  });
});

/** A workbook with a part of given bytes. */
function withPart(name: string, content: Uint8Array): Uint8Array {
  const others = [
    '[Content_Types].xml',
    '_rels/.rels',
    'xl/workbook.xml',
    'xl/_rels/workbook.xml.rels',
    'xl/styles.xml',
  ];
  return zipSync({
    ...Object.fromEntries(others.map((other) => [other, strToU8(partOf(workbookOf(''), other))])),
    [name]: content,
  });
}

/** The workbook's part says that it is smaller than it is. */
function lying(): Uint8Array {
  const bytes = Buffer.from(workbookOf(''));
  const at = bytes.lastIndexOf('xl/workbook.xml', bytes.length, 'latin1') - 46;
  bytes.writeUInt32LE(10, at + 24);
  return new Uint8Array(bytes);
}

/** One packed part of some size that a long list of names points at: a small file that would fill a disk. */
function overlapping(names: number, size = 7 * 2 ** 20): Uint8Array {
  const one = Buffer.from(zipSync({ 'xl/media/image00000.png': new Uint8Array(size) }));
  const end = one.length - 22;
  const start = one.readUInt32LE(end + 16);
  const record = one.subarray(start, end);
  const records = Array.from({ length: names }, (_one, index) => {
    const copy = Buffer.from(record);
    copy.write(String(index).padStart(5, '0'), copy.indexOf('image') + 5, 'latin1');
    return copy;
  });
  const directory = Buffer.concat(records);
  const tail = Buffer.from(one.subarray(end));
  tail.writeUInt16LE(names, 8);
  tail.writeUInt16LE(names, 10);
  tail.writeUInt32LE(directory.length, 12);
  return new Uint8Array(Buffer.concat([one.subarray(0, start), directory, tail]));
}

function twice(): Uint8Array {
  const bytes = Buffer.from(
    zipSync({
      ...Object.fromEntries(
        ['[Content_Types].xml', '_rels/.rels'].map((name) => [name, strToU8(partOf(workbookOf(''), name))]),
      ),
      'xl/workbook.xml': strToU8('a'),
      'xl/workbooj.xml': strToU8('b'),
    }),
  );
  for (let at = bytes.indexOf('workbooj'); at >= 0; at = bytes.indexOf('workbooj'))
    bytes.write('workbook', at, 'latin1');
  return new Uint8Array(bytes);
}
