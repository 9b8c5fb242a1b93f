/** Collects the pane's texts for translators, and says what each translation lacks: node tools/run-ts.mjs tools/texts/main.ts */
import { writeFileSync } from 'node:fs';
import { collectTexts } from './collect';
import { paneSource, TEXTS, textsFile, translations } from './files';
import { compareTranslation } from './translation';

const root = process.cwd();
const SHOWN = 10;

const collected = collectTexts(paneSource(root));
writeFileSync(TEXTS, textsFile(collected));
console.log(`${collected.texts.size} texts in ${TEXTS}`);

const faults = [...collected.faults];
for (const [tag, translation] of translations(root)) {
  const compared = compareTranslation(collected.texts.keys(), translation);
  list(`${tag} lacks ${compared.lacks.length} texts, which are shown in English`, compared.lacks);
  list(`${tag} has ${compared.tooMany.length} texts that the pane does not have`, compared.tooMany);
  faults.push(...compared.faults.map((fault) => `${tag}: ${fault}`));
}
for (const fault of faults) console.error(fault);
process.exitCode = faults.length > 0 ? 1 : 0;

function list(title: string, texts: readonly string[]): void {
  if (texts.length === 0) return;
  console.log(`${title}:`);
  const shown = process.argv.includes('--all') ? texts : texts.slice(0, SHOWN);
  for (const text of shown) console.log(`  ${text}`);
  if (shown.length < texts.length) console.log(`  … and ${texts.length - shown.length} more; --all lists them`);
}
