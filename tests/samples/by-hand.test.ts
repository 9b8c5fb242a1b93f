/** The sample workbooks' weight, moment and margins against sums that Python works out apart from Tarebook. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readWorkbook } from '../../src/xlsx';
import { python } from '../helpers/programs';
import { BUDGETED, WING } from '../helpers/sample-figures';

const pythonPath = python('openpyxl');

interface Sums {
  readonly now: number;
  readonly moment: number;
  readonly forecast: number;
  readonly budget: number;
}

const path = (name: string): string => fileURLToPath(new URL(`../../sample-workbooks/${name}.xlsx`, import.meta.url));

function byHand(name: string): { total: Sums; components: Record<string, Sums> } {
  const script = fileURLToPath(new URL('by-hand.py', import.meta.url));
  const { stdout, stderr, status } = spawnSync(pythonPath!, [script, path(name)], { encoding: 'utf8' });
  expect(stderr).toBe('');
  expect(status).toBe(0);
  return JSON.parse(stdout) as { total: Sums; components: Record<string, Sums> };
}

/** What the file has beside each component on the sheet Budget: now, forecast, budget, margin. */
function stored(name: string): [string, number[]][] {
  const { cells } = readWorkbook(readFileSync(path(name))).sheets.find((sheet) => sheet.name === 'Budget')!;
  // Below the total stand other figures.
  const end = cells.findIndex((row) => row?.[3]?.value === 'Total') + 1;
  return cells.slice(5, end).flatMap((row): [string, number[]][] => {
    const [component, ...figures] = (row ?? []).slice(3, 8).map((cell) => cell?.value);
    return typeof component === 'string' && figures.every((one) => typeof one === 'number')
      ? [[component, figures]]
      : [];
  });
}

describe.runIf(pythonPath)('worked out by hand', () => {
  it.each(['wing', 'budget'])('%s.xlsx has the same weights, forecasts and margins', (name) => {
    const { total, components } = byHand(name);
    const rows = stored(name);
    expect(rows.length).toBe(Object.keys(components).length + 1);
    for (const [component, [now, forecast, budget, margin]] of rows) {
      const sums = component === 'Total' ? total : components[component]!;
      expect(now, component).toBeCloseTo(sums.now, 6);
      expect(forecast, component).toBeCloseTo(sums.forecast, 6);
      expect(budget, component).toBeCloseTo(sums.budget, 9);
      expect(margin, component).toBeCloseTo(sums.budget - sums.forecast, 6);
    }
  });

  it('gives the figures that are quoted', () => {
    const { total, components } = byHand('wing');
    const aileron = components['Aileron']!;
    expect({
      weight: total.now.toFixed(2),
      arm: (total.moment / total.now).toFixed(2),
      moment: total.moment.toFixed(0),
      forecast: total.forecast.toFixed(2),
      budget: String(Number(total.budget.toFixed(6))),
      margin: (total.budget - total.forecast).toFixed(2),
      aileronMargin: (aileron.budget - aileron.forecast).toFixed(2),
    }).toEqual(WING);
    const other = byHand('budget').total;
    expect({
      weight: other.now.toFixed(2),
      forecast: other.forecast.toFixed(2),
      budget: other.budget.toFixed(2),
      margin: (other.budget - other.forecast).toFixed(2),
    }).toEqual(BUDGETED);
  });
});
