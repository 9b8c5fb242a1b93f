/** npm run samples: writes the sample workbooks, with the values of their formulas, into sample-workbooks. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { withBudgetChart } from '../../src/project';
import { writeWorkbook } from '../../src/xlsx';
import type { WorkbookModel } from '../../src/sheet';
import type { BookBuilder } from './book';
import { budgetBook } from './budget';
import { buying } from './buying';
import { computed, refuseErrors } from './compute';
import { withFittedWidths } from './fitted-widths';
import { rib } from './rib';
import { rivetChoice } from './rivet-choice';
import { selfCheck, withoutResults } from './self-check';
import { weighing } from './weighing';
import { wing } from './wing';
import { wingTwin } from './wing-twin';

const folder = 'sample-workbooks';
mkdirSync(folder, { recursive: true });

async function write(name: string, book: BookBuilder): Promise<WorkbookModel> {
  const model = withFittedWidths(await computed(name, book.model()));
  refuseErrors(name, model);
  save(name, model, await writeWorkbook(withBudgetChart(model)));
  return model;
}

function save(name: string, { sheets }: WorkbookModel, bytes: Uint8Array): void {
  writeFileSync(`${folder}/${name}`, bytes);
  console.log(`${folder}/${name}: ${sheets.length} sheets, ${(bytes.length / 1024).toFixed(0)} KB`);
}

await write('rib.xlsx', rib());
const wingModel = await write('wing.xlsx', wing(wingTwin()));
await write('budget.xlsx', budgetBook(wingModel, await computed('budget', budgetBook(wingModel).model())));
await write('weighing.xlsx', weighing());
await write('rivet-choice.xlsx', rivetChoice());
await write('buying.xlsx', buying());

// Nothing in it is calculated by us: whoever opens it calculates it, and its first cell then says what passes.
const unchecked = withoutResults(await computed('self-check.xlsx', selfCheck().model()));
save('self-check.xlsx', unchecked, await writeWorkbook(unchecked, { calculateOnOpening: true }));
