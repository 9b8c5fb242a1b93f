/** The chart of the sheet Budget, held against the standard's schemas, and read by other programs. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { memoryPages, validateXML } from 'xmllint-wasm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { existingProject, newProjectEdits, withBudgetChart } from '../../src/project';
import { calculate, loadWorkbook, calculatorHere, startEngine, UniverWorkbook } from '../../src/hosts/univer';
import type { WorkbookModel } from '../../src/sheet';
import { readWorkbook, writeWorkbook } from '../../src/xlsx';
import { recalculatedByLibreOffice } from '../helpers/libreoffice';
import { python, soffice } from '../helpers/programs';
import { open } from './structure/facts';
import { hasSchemas } from './structure/valid';

const SCHEMAS = new URL('../../../shared/data/ooxml-xsd/transitional/', import.meta.url);
const sample = new Uint8Array(readFileSync(new URL('../../sample-workbooks/wing.xlsx', import.meta.url)));

/** What the standard's schema says of a part. */
async function faults(name: string, contents: string, schema: string): Promise<string[]> {
  const text = (file: string): string =>
    readFileSync(new URL(file, SCHEMAS), 'utf8').replace(
      /<xsd:import namespace="http:\/\/www.w3.org\/XML\/1998\/namespace"[^>]*>/,
      '',
    );
  const { errors } = await validateXML({
    xml: [{ fileName: name, contents }],
    schema: [{ fileName: schema, contents: text(schema) }],
    preload: readdirSync(SCHEMAS)
      .filter((file) => file !== schema)
      .map((file) => ({
        fileName: file,
        contents: text(file).replaceAll(/<xsd:attribute ref="xml:space"[^>]*>/g, ''),
      })),
    initialMemoryPages: 4 * memoryPages.MiB * 16,
    maxMemoryPages: 16 * memoryPages.MiB * 32,
  });
  return errors.map(({ rawMessage }) => rawMessage);
}

const formulas = (xml: string): string[] => [...xml.matchAll(/<c:f>([^<]*)<\/c:f>/g)].map(([, text]) => text!);

/** Of the wing: ten components, without the total. */
const OF_WING = [
  ...['Budget!$E$5', 'Budget!$D$6:$D$15', 'Budget!$E$6:$E$15'],
  ...['Budget!$F$5', 'Budget!$D$6:$D$15', 'Budget!$F$6:$F$15'],
  ...['Budget!$G$5', 'Budget!$D$6:$D$15', 'Budget!$G$6:$G$15'],
];

describe('the chart of the sample wing', () => {
  const { parts } = open(sample);

  it('draws each component’s weight now, its forecast and its budget', () => {
    expect(formulas(parts.get('xl/charts/chart1.xml')!)).toEqual(OF_WING);
    expect(parts.get('xl/charts/chart1.xml')).toContain('<a:t>Weight against budget (lb)</a:t>');
  });

  it.skipIf(!hasSchemas)('keeps the schemas of charts and of drawings', async () => {
    expect(await faults('chart1.xml', parts.get('xl/charts/chart1.xml')!, 'dml-chart.xsd')).toEqual([]);
    expect(await faults('drawing1.xml', parts.get('xl/drawings/drawing1.xml')!, 'dml-spreadsheetDrawing.xsd')).toEqual(
      [],
    );
  });

  const libreOffice = soffice();
  it.skipIf(!libreOffice)('is read by LibreOffice, which writes it again over the same cells', () => {
    const again = open(recalculatedByLibreOffice(libreOffice!, sample)).parts;
    const chart = again.get([...again.keys()].find((part) => part.startsWith('xl/charts/chart'))!)!;
    expect(formulas(chart)).toEqual(OF_WING);
  });

  const withOpenpyxl = python('openpyxl');
  it.skipIf(!withOpenpyxl)('is read by openpyxl, beside the sums', () => {
    const folder = mkdtempSync(join(tmpdir(), 'tarebook-chart-'));
    try {
      writeFileSync(join(folder, 'wing.xlsx'), sample);
      const program = [
        'import json, openpyxl, sys',
        'charts = openpyxl.load_workbook(sys.argv[1])["Budget"]._charts',
        'print(json.dumps([[type(c).__name__, c.anchor._from.row, c.anchor._from.col, [s.val.numRef.f for s in c.series]] for c in charts]))',
      ].join('\n');
      const { stdout } = spawnSync(withOpenpyxl!, ['-c', program, join(folder, 'wing.xlsx')], { encoding: 'utf8' });
      const values = ['E', 'F', 'G'].map((column) => `'Budget'!$${column}$6:$${column}$15`);
      expect(JSON.parse(stdout)).toEqual([['BarChart', 4, 11, values.map((one) => one.replaceAll("'", ''))]]);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

describe('the chart of a sheet that is made on the bench', () => {
  const engine = startEngine({ calculator: calculatorHere });
  const opened = (bytes: Uint8Array, id: string): UniverWorkbook => {
    loadWorkbook(engine, readWorkbook(bytes), id, id);
    return new UniverWorkbook(engine, id, 'headless', id);
  };
  let workbook: UniverWorkbook;
  let saved: Uint8Array;
  beforeAll(async () => {
    const file = await writeWorkbook({ sheets: [{ name: 'Sheet1', cells: [], tables: [] }], names: [], styles: [] });
    workbook = opened(file, 'made');
    const existing = await existingProject(workbook);
    const { edits } = newProjectEdits({ units: 'mm-kg', examples: true, today: '2026-03-31', existing });
    await workbook.apply('Make ready', edits);
    await calculate(engine);
    saved = workbook.saved(file);
  });
  afterAll(() => workbook.dispose());
  const chartOf = (bytes: Uint8Array): string => open(bytes).parts.get('xl/charts/chart1.xml')!;

  it('has room for every component that is still to come', () => {
    expect(formulas(chartOf(saved)).slice(0, 3)).toEqual(['Budget!$E$5', 'Budget!$D$6:$D$36', 'Budget!$E$6:$E$36']);
    expect(chartOf(saved)).toContain('<a:t>Weight against budget (kg)</a:t>');
    expect(chartOf(saved)).toMatch(/<c:strCache><c:ptCount val="31"\/><c:pt idx="0"><c:v>Ribs<\/c:v>/);
  });

  it('is made once: a file that has it keeps its own', async () => {
    const again = opened(saved, 'again');
    await again.apply('Type', [
      { kind: 'write', range: { sheet: 'Budget', row: 6, column: 1, rows: 1, columns: 1 }, cells: [[2]] },
    ]);
    const second = again.saved(saved);
    expect([...open(second).parts.keys()].filter((part) => part.startsWith('xl/charts/'))).toEqual([
      'xl/charts/chart1.xml',
    ]);
    expect(chartOf(second)).toBe(chartOf(saved));
    again.dispose();
  });
});

it('a sheet Budget without the three columns side by side is given none', () => {
  const cells = [['Component', 'Budget (lb)', 'Now (lb)'].map((value) => ({ value }))];
  const model: WorkbookModel = { sheets: [{ name: 'Budget', cells, tables: [] }], names: [], styles: [] };
  expect(withBudgetChart(model)).toEqual(model);
});
