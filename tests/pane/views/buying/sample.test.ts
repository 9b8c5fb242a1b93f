/** buying.xlsx as it lies in the repository, in the embedded engine and through the view's own reader. */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { readProject } from '../../../helpers/project';
import { sumMoney } from '../../../../src/core/price';
import { loadHighsSolver } from '../../../../src/core/stock/highs-solver';
import { CellError } from '../../../../src/sheet';
import { calculate, loadWorkbook, calculatorHere, startEngine, UniverWorkbook } from '../../../../src/hosts/univer';
import { planRequest } from '../../../../src/pane/views/buying/cutting-needs';
import { runPlan } from '../../../../src/pane/views/buying/plan-run';
import { buyingSheets, readBuyingSheets, type BuyingSheets } from '../../../../src/pane/views/buying/buying-sheets';
import { readWorkbook } from '../../../../src/xlsx';

const model = readWorkbook(
  new Uint8Array(readFileSync(new URL('../../../../sample-workbooks/buying.xlsx', import.meta.url))),
);

describe('buying.xlsx', () => {
  let sheets: BuyingSheets;
  beforeAll(async () => {
    const engine = startEngine({ calculator: calculatorHere });
    loadWorkbook(engine, model, 'buying', 'buying');
    await calculate(engine);
    const workbook = new UniverWorkbook(engine, 'buying', 'headless', 'buying');
    sheets = readBuyingSheets(await readProject(workbook, buyingSheets));
  });

  it('has no cell in error', () => {
    const wrong = model.sheets.flatMap(({ name, cells }) =>
      cells.flatMap((row, r) =>
        (row ?? []).flatMap((cell, c) =>
          cell?.value instanceof CellError ? [`${name} ${r} ${c} ${cell.value.toString()}`] : [],
        ),
      ),
    );
    expect(wrong).toEqual([]);
  });

  it('is read without a problem, and everything has a price', () => {
    expect(sheets).toMatchObject({ problems: [], silent: 0, list: { unpriced: [], withoutRate: [] } });
    expect(sheets.list.orders.map(({ supplier }) => supplier).sort()).toEqual([
      'Gatepost Aero Parts',
      'Lowmoor Sheet & Tube',
      'Two Sheds Fasteners',
    ]);
    expect(sheets.list.orders.find(({ supplier }) => supplier.startsWith('Lowmoor'))).toMatchObject({
      freight: 60,
      cutting: 10,
    });
  });

  it('reconciles to the cent: what is spent is the sum of the purchases', () => {
    const { list, purchases } = sheets;
    expect(list.spent).toBe(
      sumMoney(
        purchases!.purchases.map(({ paid }) => paid),
        'USD',
      ),
    );
    expect(list.total).toBe(sumMoney([list.spent, list.toBuy], 'USD'));
  });

  it('has a cutting plan for every material, with the leftovers first', async () => {
    const solver = await loadHighsSolver();
    for (const group of sheets.groups) {
      const plan = await runPlan(planRequest(group, sheets, 5), solver, {
        signal: { aborted: false },
        progress: () => undefined,
      });
      expect([group.name, plan.missing]).toEqual([group.name, []]);
      expect(plan.gap).toBeLessThan(0.02);
      const shelf = sheets.stock!.pieces.filter(({ name }) =>
        plan.stockUsed.some((used) => used.name === name && used.offcut),
      );
      if (/0\.0(16|20|25)|Tube/.test(group.name)) expect([group.name, shelf.length]).toEqual([group.name, 1]);
    }
    expect(sheets.groups.map(({ name }) => name)).toEqual([
      '6061-T6 0.016 in',
      '6061-T6 0.020 in',
      '6061-T6 0.025 in',
      '6061-T6 0.032 in',
      '6061-T6 0.050 in',
      'Hinge 1-1/4 wide',
      'Tube 3/4 x .049',
    ]);
  });
});
