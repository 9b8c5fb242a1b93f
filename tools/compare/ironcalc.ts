/** Formulas as a JSON list on standard input, what IronCalc shows for each as lines of JSON: run by calculators.ts, which ends it where it gives no answer. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import init, { Model } from '@ironcalc/wasm';
import { COLUMN, DATA, FIRST_ROW } from './sheet';

await init({ module_or_path: readFileSync(createRequire(import.meta.url).resolve('@ironcalc/wasm/wasm_bg.wasm')) });
const model = new Model('compare', 'en', 'UTC', 'en');
model.renameSheet(0, 'Data');
DATA.forEach((line, row) =>
  line.forEach((value, column) => {
    if (value === null || value === '') return;
    const text =
      typeof value === 'object' ? value.code : typeof value === 'string' ? `'${value}` : String(value).toUpperCase();
    model.setUserInput(0, row + 1, column + 1, text);
  }),
);
for (const formula of JSON.parse(readFileSync(0, 'utf8')) as string[]) {
  model.setUserInput(0, FIRST_ROW + 1, COLUMN + 1, `=${formula}`);
  model.evaluate();
  process.stdout.write(`${JSON.stringify(model.getFormattedCellValue(0, FIRST_ROW + 1, COLUMN + 1))}\n`);
  model.setUserInput(0, FIRST_ROW + 1, COLUMN + 1, '');
}
