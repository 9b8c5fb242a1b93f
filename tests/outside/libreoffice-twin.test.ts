/**
 * The sample wing against LibreOffice Calc: the same workbook with every TARE function written out in
 * plain spreadsheet arithmetic (tools/samples/wing-twin.ts), recalculated there from nothing. Every number
 * on every sheet must agree to 1e-9 relative; the airfoil's girths, areas and depths enter the plain form
 * as numbers from a brute-force integration of the equations of NACA Report 460.
 */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readWorkbook, writeWorkbook } from '../../src/xlsx';
import { cellName, type WorkbookModel } from '../../src/sheet';
import { SheetBuilder } from '../../tools/samples/book';
import { fillPrices } from '../../tools/samples/sample-prices';
import { wing } from '../../tools/samples/wing';
import { twinSheet, wingTwin } from '../../tools/samples/wing-twin';
import { recalculatedByLibreOffice } from '../helpers/libreoffice';
import { soffice } from '../helpers/programs';

const office = soffice();

const numbers = (model: WorkbookModel, sheet: string): Map<string, number> =>
  new Map(
    model.sheets
      .find(({ name }) => name === sheet)!
      .cells.flatMap((row, r) =>
        row.flatMap((cell, c): [string, number][] =>
          typeof cell?.value === 'number' ? [[cellName(r, c), cell.value]] : [],
        ),
      ),
  );

it.skipIf(!office)(
  'the wing in plain formulas gives the same numbers in LibreOffice',
  { timeout: 180_000 },
  async () => {
    const ours = readWorkbook(readFileSync('sample-workbooks/wing.xlsx'));
    const rivets = new Set(
      ours.sheets
        .find(({ name }) => name === 'Joints')!
        .cells.flatMap((row) =>
          typeof row[14]?.value === 'string' && /^(MS20|BLIND)/.test(row[14].value) ? [row[14].value] : [],
        ),
    );
    const prices = new SheetBuilder('Prices');
    fillPrices(prices);
    const twin = wing(wingTwin()).twin([twinSheet(prices, [...rivets])]);
    const theirs = readWorkbook(recalculatedByLibreOffice(office!, await writeWorkbook(twin)));

    let compared = 0;
    const differing: string[] = [];
    for (const sheet of ['Design', 'Parts', 'Joints', 'Hardware', 'Weights']) {
      const found = numbers(theirs, sheet);
      for (const [cell, value] of numbers(ours, sheet)) {
        compared++;
        const other = found.get(cell);
        if (other === undefined || Math.abs(other - value) > 1e-9 * Math.max(Math.abs(value), 1e-6))
          differing.push(`${sheet}!${cell}: ${value}, LibreOffice ${other}`);
      }
    }
    expect(differing).toEqual([]);
    expect(compared).toBeGreaterThan(1000);
  },
);
