/** npm run deps: why each runtime dependency is here, its licence, its size, and whether an advisory is known. */
import { askAdvisories } from './advisories';
import reasons from './reasons.json';
import { review } from './review';
import { table } from './table';

const root = process.cwd();
const { rows, total, mend } = review(root, reasons);

const size = (bytes: number): string => `${(bytes / 1e6).toFixed(bytes < 1e7 ? 2 : 0)} MB`;

console.log(
  table(
    ['package', 'version', 'licence', '>size', '>brings', '>of size', 'why it is here'],
    rows.map((row) => [
      row.name,
      row.version,
      row.licence,
      size(row.size),
      `${row.brings.packages}`,
      row.brings.packages === 0 ? '' : size(row.brings.size),
      row.reason,
    ]),
  ),
);
console.log(
  `\n${total.packages} packages in all, each counted once: ${size(total.size)} installed. What one brings along is often shared with others.`,
);

const answer = askAdvisories(root);
const findings = 'advisories' in answer ? [...mend, ...answer.advisories] : mend;
if ('unasked' in answer)
  console.log(
    `Advisories: not known, since the registry could not be asked (${answer.unasked}). Run this again with a connection.`,
  );
else if (answer.advisories.length === 0) console.log('Advisories: none known.');
else console.log(`Advisories: ${answer.advisories.length} known.`);

if (findings.length > 0) {
  console.error(`\nTo mend:\n${findings.map((line) => `  ${line}`).join('\n')}`);
  process.exitCode = 1;
}
