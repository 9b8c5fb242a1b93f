/** Every edit of the structure over the workbooks of four writers: valid, and as another program makes it. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readWorkbook, shiftWorkbook } from '../../../src/xlsx';
import { recalculatingProfile } from '../../helpers/libreoffice';
import { python, soffice } from '../../helpers/programs';
import { MORE } from '../../property/runs';
import { facts } from './facts';
import { OPERATIONS, OWN_OPERATIONS } from './operations';
import { hasSchemas, ruleFaults, schemaFaults } from './valid';
import { byExceljs, byLibreOffice, byPython, type LibreOfficeJob } from './writers';

const PYTHON = python('openpyxl', 'xlsxwriter');
const UNO = python('uno');
const OFFICE = soffice();
const ALL = { ...OPERATIONS, ...OWN_OPERATIONS };
const folder = mkdtempSync(join(tmpdir(), 'tarebook-structure-'));
const office = UNO && OFFICE ? { python: UNO, soffice: OFFICE, profile: recalculatingProfile(folder) } : undefined;
const WRITERS = [
  'exceljs',
  ...(PYTHON ? ['xlsxwriter', 'openpyxl'] : []),
  ...(PYTHON && office ? ['libreoffice'] : []),
];
/** LibreOffice takes a second a file: two writers' workbooks are compared in all, the others' in some of the edits, and in all by `npm run fuzz`. */
const compared = (writer: string): string[] =>
  Object.keys(OPERATIONS).filter((_name, index) => MORE > 1 || /xlsxwriter|openpyxl/.test(writer) || index % 3 === 0);

const files = new Map<string, Uint8Array>();
const edited = new Map<string, Uint8Array>();
/** Ours and LibreOffice's, each as LibreOffice saves it. */
let saved = new Map<string, Uint8Array>();

beforeAll(async () => {
  files.set('exceljs', await byExceljs());
  if (PYTHON)
    for (const writer of ['xlsxwriter', 'openpyxl'] as const) files.set(writer, byPython(PYTHON, writer, folder));
  if (PYTHON && office)
    files.set(
      'libreoffice',
      byLibreOffice(office, folder, new Map([['', { from: files.get('xlsxwriter')!, edits: [] }]])).get('')!,
    );
  for (const [writer, bytes] of files)
    for (const [name, operations] of Object.entries(ALL))
      edited.set(`${writer}: ${name}`, shiftWorkbook(bytes, operations));
  if (!office) return;
  const jobs = new Map<string, LibreOfficeJob>();
  for (const [writer, bytes] of files)
    for (const name of compared(writer)) {
      const operations = OPERATIONS[name]!;
      jobs.set(`${writer}: ${name}, by us`, { from: edited.get(`${writer}: ${name}`)!, edits: [] });
      jobs.set(`${writer}: ${name}, by LibreOffice`, { from: bytes, edits: operations });
    }
  saved = byLibreOffice(office, folder, jobs);
}, 600_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.each(WRITERS)('a workbook of %s', (writer) => {
  it.each(Object.keys(ALL))('keeps the rules of the standard when %s', (name) => {
    const bytes = edited.get(`${writer}: ${name}`)!;
    expect(ruleFaults(bytes)).toEqual([]);
    expect(readWorkbook(bytes).sheets.length).toBeGreaterThan(1);
  });

  it.skipIf(!office).each(compared(writer))('names the cells that LibreOffice names when %s', (name) => {
    const [ours, theirs] = ['by us', 'by LibreOffice'].map((who) => facts(saved.get(`${writer}: ${name}, ${who}`)!));
    expect(without(ours!, name)).toEqual(without(theirs!, name));
  });
});

it.skipIf(!hasSchemas)(
  'all are valid against the published schemas',
  async () => {
    const before = new Set((await schemaFaults(files)).map(fault));
    expect((await schemaFaults(edited)).filter((one) => !before.has(fault(one)))).toEqual([]);
  },
  300_000,
);

it.skipIf(!PYTHON)(
  'all are opened by openpyxl',
  () => {
    const names = [...edited.keys()].map((name, index) => {
      writeFileSync(join(folder, `opened-${index}.xlsx`), edited.get(name)!);
      return join(folder, `opened-${index}.xlsx`);
    });
    writeFileSync(join(folder, 'opened.txt'), names.join('\n'));
    const script =
      'import openpyxl, sys\nfor name in open(sys.argv[1]).read().split("\\n"): openpyxl.load_workbook(name)';
    const { status, stderr } = spawnSync(PYTHON!, ['-W', 'ignore', '-c', script, join(folder, 'opened.txt')], {
      encoding: 'utf8',
    });
    expect(status, stderr).toBe(0);
  },
  120_000,
);

/** A complaint without its file and line. */
const fault = (text: string): string => text.replace(/^[^:]*:\d+: /, '');

/** What LibreOffice does otherwise, with the reason. */
const KNOWN: readonly { readonly when: RegExp; readonly what: RegExp; readonly why: string }[] = [
  { when: /./, what: /: list \S+ \S*>0$/, why: 'a custom validation stays written for the cell where it was' },
  { when: /come|came|part/, what: /: look A|: look E5:A5/, why: 'rules of looks grow over what comes beside them' },
  { when: /first row/, what: /: look /, why: 'a rule whose first cell goes is lost' },
  {
    when: /./,
    what: /Print_Area is Parts!\$A\d/,
    why: 'a print area whose rows are not fixed stays, as exceljs writes one',
  },
  { when: /at the top/, what: /Print_Titles/, why: 'repeated rows stay' },
  { when: /columns? go|sheet of the parts/, what: /: chart /, why: 'charts do not follow cells that go' },
  { when: /three come/, what: /^Lists: B1/, why: 'cells that are gone come back when columns come' },
  { when: /from the table/, what: /SUM\(Sizes\[length\]\)/, why: 'a column that is gone is Sizes[#REF!]' },
];

const without = (list: readonly string[], name: string): string[] =>
  list.filter((one) => !KNOWN.some(({ when, what }) => when.test(name) && what.test(one)));
