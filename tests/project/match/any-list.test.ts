/** Lists that Tarebook did not make give the right totals with no cell retyped: against plain arithmetic of another language. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { tarebook } from '../../cli/tarebook';
import { convertedByLibreOffice } from '../../helpers/libreoffice';
import { python, soffice } from '../../helpers/programs';

const here = (name: string): string => fileURLToPath(new URL(name, import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'tarebook-lists-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Totals {
  readonly weight: number;
  readonly moment: number;
  readonly components: Readonly<Record<string, number>>;
}

interface Report {
  readonly units: { readonly weight: string };
  readonly components: readonly { readonly name: string; readonly weight: number }[];
  readonly total: { readonly weight: number; readonly moment: number };
  readonly problems: readonly { readonly sheet: string; readonly cell: string; readonly message: string }[];
}

/** Matches a list as `tarebook match` guesses it, with what it asks filled in, and rolls it up by that. */
async function rolledUp(
  path: string,
  answer = '',
): Promise<{ readonly match: string; readonly asked: string; readonly report: Report }> {
  const { out, err } = await tarebook('match', path);
  const match = answer === '' ? out : out.replace(/,(Weight,[^,\n]*),$/m, `,$1,${answer}`);
  const file = join(folder, 'match.csv');
  writeFileSync(file, match);
  const { out: json } = await tarebook('report', path, '--match', file, '--json');
  return { match, asked: err, report: JSON.parse(json) as Report };
}

const POUND = 0.45359237;
const INCH = 25.4;

function expectTotals({ units, total, components }: Report, wanted: Totals): void {
  const [pound, moment] = units.weight === 'kg' ? [POUND, POUND * INCH] : [1, 1];
  expect(total.weight / pound).toBeCloseTo(wanted.weight, 9);
  expect(total.moment / moment).toBeCloseTo(wanted.moment, 4);
  expect(Object.fromEntries(components.map(({ name, weight }) => [name, Number((weight / pound).toFixed(9))]))).toEqual(
    Object.fromEntries(Object.entries(wanted.components).map(([name, weight]) => [name, Number(weight.toFixed(9))])),
  );
}

const PYTHON = python('openpyxl');

describe.skipIf(!PYTHON)('lists by openpyxl', () => {
  const made = PYTHON ? spawnSync(PYTHON, [here('make.py'), folder], { encoding: 'utf8' }) : undefined;
  const totals = (name: string): Totals => (JSON.parse(made!.stdout) as Record<string, Totals>)[name]!;
  const list = (name: string): string => join(folder, name);

  it('of 2,000 rows, with unit weights and gauges, are added up', async () => {
    const { match, asked, report } = await rolledUp(list('long.xlsx'));
    expect(asked).toBe('');
    expect(match.split('\n')).toEqual([
      'Sheet,Header,Means,Unit,Read as',
      'Master list,Description,Part,,',
      'Master list,Assembly,Component,,',
      'Master list,Qty,Qty,,',
      'Master list,Ga,Thickness,gauge,',
      'Master list,Alloy,Material,,',
      'Master list,Unit weight (lb),Weight,lb,each piece',
      'Master list,FS (in),Arm,in,',
      '',
    ]);
    expectTotals(report, totals('long.xlsx'));
    expect(report.problems).toEqual([]);
  });

  it('with a unit in each cell are read by it', async () => {
    const { match, report } = await rolledUp(list('units.xlsx'));
    expect(match).toContain('Tail,Weight per piece,Weight,lb,each piece');
    expect(match).toContain('Tail,(sheet name),Component,,');
    expectTotals(report, totals('units.xlsx'));
    expect(report.problems).toEqual([]);
  });

  it('with a merged title, two header rows, headings and subtotals are read, and the sums told', async () => {
    const { match, report } = await rolledUp(list('headings.xlsx'));
    expect(match).toContain('"Weight / total, lb",Weight,lb,all pieces');
    expect(match).toContain('Estimate,(headings),Component,,');
    expectTotals(report, totals('headings.xlsx'));
    expect(report.problems.map(({ cell, message }) => [cell, message.split(':')[0]])).toEqual([
      ['A10', 'says "Subtotal"'],
      ['A15', 'says "Subtotal"'],
      ['A17', 'says "TOTAL"'],
    ]);
  });

  it('of a sheet for each component take its name, and the typed totals say that weights are of one piece', async () => {
    const { match, asked, report } = await rolledUp(list('sheets.xlsx'));
    expect(asked).toBe('');
    expect(match).toContain('Wing,Wt lb,Weight,lb,each piece');
    expect(match).toContain('Tail,(sheet name),Component,,');
    expectTotals(report, totals('sheets.xlsx'));
  });

  it('in kilograms, millimetres and decimal commas are read as a CSV file', async () => {
    const { match, report } = await rolledUp(list('metric.csv'));
    expect(match).toContain('metric,Masse gesamt (kg),Weight,kg,all pieces');
    expect(report.units.weight).toBe('kg');
    expectTotals(report, totals('metric.csv'));
    expect(report.problems).toEqual([]);
  });

  const OFFICE = soffice();
  it.skipIf(!OFFICE)('the same are read as a workbook by LibreOffice', { timeout: 180_000 }, async () => {
    const [read] = convertedByLibreOffice(OFFICE!, [readFileSync(list('metric.csv'))], {
      from: { ends: 'csv', filter: 'CSV:59,34,76,1,,1031,false,true' },
    });
    writeFileSync(list('metric.xlsx'), read!);
    const { report } = await rolledUp(list('metric.xlsx'));
    expectTotals(report, totals('metric.csv'));
  });
});

it('a list whose dots part thousands is read so', async () => {
  const path = join(folder, 'dots.csv');
  writeFileSync(
    path,
    'Teil;Stück;Stückgewicht (g);x [mm]\nRippe;14;152,5;1.510\nHolm;2;3.400;1.480,5\nSumme;;8.935;\n',
  );
  const { report } = await rolledUp(path);
  expect(report.total.weight).toBeCloseTo(8.935, 9);
  expect(report.total.moment).toBeCloseTo(2.135 * 1510 + 6.8 * 1480.5, 6);
});

describe('a list typed by hand', () => {
  it('is read as it is: its total says what its weights are of', async () => {
    const { asked, report } = await rolledUp(here('by-hand.csv'));
    expect(asked).toBe('');
    // 3.5 + 4.25 + 2.2 + 0.9 + 1.15 lb; the bolts have no station.
    expectTotals(report, {
      weight: 12,
      moment: 3.5 * 95.25 + 4.25 * 101 + 2.2 * 232.5 + 1.15 * 229,
      components: { 'by-hand': 12 },
    });
  });

  it('has a report to print', async () => {
    const { report } = await rolledUp(here('by-hand.csv'));
    const page = join(folder, 'page.html');
    await tarebook('report', here('by-hand.csv'), '--match', join(folder, 'match.csv'), '--html', page);
    const html = readFileSync(page, 'utf8');
    expect([report.total.weight, html.includes('Seat pan'), html.includes('12.00')]).toEqual([12, true, true]);
  });

  it('is asked about where nothing says whether weights are of one piece or of all', async () => {
    const path = join(folder, 'asked.csv');
    writeFileSync(path, readFileSync(here('by-hand.csv'), 'utf8').replace(/^Total.*\n/m, ''));
    const { match, asked, report: unasked } = await rolledUp(path);
    expect(match).toContain('asked,Weight lb,Weight,lb,\n');
    expect(asked).toContain('is the weight of each piece or of all pieces of a row?');
    expect(unasked.problems).toContainEqual({
      sheet: 'Matches',
      cell: 'E6',
      message: 'is blank; takes each piece or all pieces. It is counted as all pieces',
    });
    const { report } = await rolledUp(path, 'each piece');
    expect(report.total.weight).toBeCloseTo(2 * 3.5 + 4.25 + 4 * 2.2 + 120 * 0.9 + 2 * 1.15, 9);
  });

  it('is named with what it lacks where it is not matched', async () => {
    const { code, err } = await tarebook('report', here('by-hand.csv'));
    expect(code).toBe(2);
    expect(err).toContain('The sheet by-hand has Part name, Qty, Gauge, Alloy, Weight lb and Station.');
    const short = join(folder, 'short.csv');
    writeFileSync(short, readFileSync(here('by-hand.csv'), 'utf8').replace('Station', 'Drawing'));
    expect((await tarebook('report', short)).err).toContain(
      'The sheet short has Part name, Qty, Gauge, Alloy and Weight lb, but no column for Arm.',
    );
  });
});
