/** The sample wing and the sample airplanes in millimetres and kilograms: the same models, and a report in their units. */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { reportText, reportJson } from '../../src/cli/report-text';
import { reportPage } from '../../src/cli/report-html';
import { piecesPerPound } from '../../src/core/fastener';
import { openPriceBook, readPriceList, type PriceBook } from '../../src/core/price';
import { gatherNeeds } from '../../src/core/shopping';
import { CellError } from '../../src/sheet';
import {
  balanceModels,
  JOINTS,
  PARTS,
  projectSheetsOf,
  readForm,
  readParts,
  readRivetJoints,
  summarise,
  weightsModel,
} from '../../src/project';
import { recalculate } from '../../src/calculation';
import { type SheetModel, type WorkbookModel } from '../../src/sheet';
import { readWorkbook } from '../../src/xlsx';
import { convertColumns, inMetric, metricAirplaneSheets, metricSheet, metricValues, valuesIn } from './metric';

const open = (name: string): WorkbookModel =>
  readWorkbook(new Uint8Array(readFileSync(new URL(`../../sample-workbooks/${name}`, import.meta.url))));

/** Numbers to 1e-9 of their size, everything else as it is; what tells of units or of the sheet's cells is passed over. */
function agree(value: unknown, expected: unknown, path = ''): void {
  if (typeof expected === 'number')
    return expect(
      Math.abs((value as number) - expected),
      `${path}: ${String(value)} for ${expected}`,
    ).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(expected)));
  if (typeof expected !== 'object' || expected === null) return expect(value, path).toEqual(expected);
  const passed = new Set([
    'units',
    'useUnits',
    'use',
    'form',
    'points',
    'corrections',
    'facts',
    'emptyUnits',
    'stationUnits',
    'sheetUnits',
    'say',
    'words',
  ]);
  expect(Object.keys(value as object), path).toEqual(Object.keys(expected));
  for (const [key, one] of Object.entries(expected))
    if (!passed.has(key) || (key === 'points' && Array.isArray(one)))
      agree((value as Record<string, unknown>)[key], one, `${path}.${key}`);
}

/** Numbers in inches or pounds that are left in a text. */
const inchPound = (text: string): string[] => [...text.matchAll(/\d+ (?:lb|in)\b/g)].map(([found]) => found);

const bookOf = (model: WorkbookModel): PriceBook =>
  openPriceBook(
    readPriceList(
      valuesIn(model.sheets.find(({ name }) => name === 'Prices')!).map((row) =>
        row.map((cell) => (cell instanceof CellError ? cell.code : cell)),
      ),
    ),
    piecesPerPound,
  );

/** The wing with Parts, Joints and Budget in metric units; formulas of computed columns stay, and are told the units. */
function metricWing(wing: WorkbookModel): WorkbookModel {
  const book = bookOf(wing);
  const sheets = wing.sheets.flatMap((sheet): SheetModel[] => {
    const values = valuesIn(sheet);
    if (sheet.name === 'Budget')
      return [
        metricSheet(
          { ...sheet, tables: [] },
          metricValues(values).map((row) => row.slice(0, 2)),
          [],
        ),
      ];
    if (sheet.name !== 'Parts' && sheet.name !== 'Joints') return sheet.name === 'Weights' ? [] : [sheet];
    const form = sheet.name === 'Parts' ? PARTS : JOINTS;
    const { columns, rows } = readForm(form, values)!;
    const made = metricValues(values);
    if (sheet.name === 'Parts') {
      const { item, use } = columns as { item: number; use: number };
      for (const { row } of rows) {
        const name = String(values[row]![item] ?? '');
        const measure = book.has(name) ? book.find(name).measure : 'pieces';
        if (measure !== 'pieces') convertColumns([made[row]!], 0, [use], measure);
      }
    }
    const computed = form.columns.flatMap(({ key, computed }) =>
      computed ? ((columns as Record<string, number | undefined>)[key] ?? []) : [],
    );
    return [metricSheet(sheet, made, computed)];
  });
  return { ...wing, sheets };
}

describe('the sample wing in millimetres and kilograms', () => {
  const wing = open('wing.xlsx');
  let metric: WorkbookModel;
  beforeAll(async () => {
    metric = recalculate(metricWing(wing)).model;
  }, 120_000);
  const of = (model: WorkbookModel) => projectSheetsOf(model);

  it('is metric, by its labels and in its formulas', () => {
    const parts = metric.sheets.find(({ name }) => name === 'Parts')!;
    expect(of(metric).units).toBe('mm-kg');
    expect(of(wing).units).toBe('in-lb');
    expect(parts.cells[4]!.map((cell) => cell?.value)).toEqual(
      expect.arrayContaining(['Thickness (mm)', 'Flat area (mm²)', 'Weight (kg)', 'Moment (kg·mm)']),
    );
    expect(
      parts.cells
        .flat()
        .flatMap((cell) => cell?.formula ?? [])
        .filter((formula) => formula.includes('TARE.')),
    ).toEqual([
      expect.stringMatching(/TARE\.WEIGHT\.SHEET\(.*,"mm-kg"\)/),
      expect.stringMatching(/TARE\.PRICE\.COST\(.*,"mm-kg"\)/),
    ]);
    expect(inMetric('TARE.RIVET.WEIGHT(O6:O60,P6:P60)')).toBe('TARE.RIVET.WEIGHT(O6:O60,P6:P60,,"mm-kg")');
  });

  it('gives the same weights', () => {
    const model = weightsModel(of(metric).values)!;
    agree(model, weightsModel(of(wing).values));
    expect(model.problems).toEqual([]);
    expect(model.differences.length).toBeGreaterThan(0);
  });

  it('gives the same roll-up, rivets and needs', () => {
    const [one, other] = [of(metric).values, of(wing).values];
    agree(summarise(one), summarise(other));
    agree(readRivetJoints(one)!.joints, readRivetJoints(other)!.joints);
    const book = bookOf(wing);
    const needs = gatherNeeds(readParts(one)!.rows, [], book);
    agree(needs, gatherNeeds(readParts(other)!.rows, [], book));
    expect(needs.some(({ quantity }) => quantity > 1000)).toBe(true);
  });

  it('is reported in kilograms and millimetres alone', () => {
    const [page, inchPage] = [metric, wing].map((model) => reportPage('wing', model, '2026-11-20')!);
    const units = (html: string): Set<string> =>
      new Set([...html.matchAll(/<span class="unit">(.*?)<\/span>/g)].map(([, unit]) => unit!));
    expect(units(inchPage!)).toEqual(new Set(['lb', 'in', 'lb·in', 'USD', '%', 'in², in or pieces', 'up to, in']));
    // Rivets keep their fractions of an inch beside the millimetres.
    expect(units(page!)).toEqual(new Set(['kg', 'mm', 'kg·mm', 'USD', '%', 'mm², mm or pieces', 'up to, mm', 'in']));
    expect(inchPound(page!)).toEqual([]);
    const { weight } = summarise(of(metric).values)!.total;
    expect(page!.includes(`>${(weight * 0.45359237).toFixed(3)}<`)).toBe(true);
    const bars = (html: string): string[] =>
      [...html.matchAll(/<rect[^>]*? width="([\d.]+)" height="14"/g)].map(([, width]) => width!);
    expect(bars(page!)).toEqual(bars(inchPage!));
    expect(bars(page!).length).toBeGreaterThan(10);
  });

  it('is rolled up on the command line in its units', () => {
    const summary = summarise(of(metric).values)!;
    expect(reportText('wing', summary)).toMatch(/ kg +mm +kg·mm/);
    const json = JSON.parse(reportJson('wing', summary)) as {
      units: unknown;
      total: { weight: number; arm: number; moment: number };
    };
    expect(json.units).toEqual({ weight: 'kg', arm: 'mm', moment: 'kg·mm' });
    expect(json.total.weight).toBeCloseTo(summary.total.weight * 0.45359237, 9);
    expect(json.total.arm * json.total.weight).toBeCloseTo(json.total.moment, 3);
  });
});

describe('the sample airplanes in millimetres and kilograms', () => {
  const book = open('weighing.xlsx');
  const metric: WorkbookModel = { ...book, sheets: metricAirplaneSheets(book) };
  const models = (model: WorkbookModel) => balanceModels(projectSheetsOf(model).values, projectSheetsOf(model).names);

  it('balance alike', () => {
    agree(models(metric), models(book));
    expect(models(metric).map(({ units, problems }) => [units, problems])).toEqual([
      ['mm-kg', []],
      ['mm-kg', []],
    ]);
  });

  it('are judged in their units', () => {
    const words = models(metric).flatMap(({ judged }) => judged!.cases.map(({ words: { verdict } }) => verdict));
    expect(inchPound(words.join('; '))).toEqual([]);
    expect(words.find((verdict) => verdict.includes('outside'))).toMatch(
      /outside: .*\d mm (?:forward|aft) of the (?:forward|aft) limit, [\d,.]+ mm at [\d,.]+ kg/,
    );
    const page = reportPage('weighing', metric, '2026-11-20')!;
    // The builder's own remark on the scales is nobody's to convert.
    expect(inchPound(page)).toEqual(['50 lb']);
    expect(page.includes('arm, mm')).toBe(true);
  });
});
