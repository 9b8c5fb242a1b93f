/** npm run samples: writes the sample workbooks, with the values of their formulas, into sample-workbooks. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { writeWorkbook } from '../../src/xlsx';
import { computed, refuseErrors } from './compute';
import { rib } from './rib';
import { wing } from './wing';
import { wingTwin } from './wing-twin';

const folder = 'sample-workbooks';
mkdirSync(folder, { recursive: true });
for (const [name, book] of [['rib.xlsx', rib()], ['wing.xlsx', wing(wingTwin())]] as const) {
  const model = await computed(name, book.model());
  refuseErrors(name, model);
  const bytes = await writeWorkbook(model);
  writeFileSync(`${folder}/${name}`, bytes);
  console.log(`${folder}/${name}: ${model.sheets.length} sheets, ${(bytes.length / 1024).toFixed(0)} KB`);
}
