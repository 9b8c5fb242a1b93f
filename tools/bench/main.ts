/** npm run bench: ratios, printed in one run and written to test-results/bench.json. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { functionRatios } from './functions';

const rows = Number(process.argv[2] ?? 100_000);
console.log(`Row-wise functions over ${rows.toLocaleString('en-US')} rows, against a loop by hand (ms, best of 7)`);
const ratios = functionRatios(rows, 7).sort((a, b) => b.ratio - a.ratio);
for (const { name, ours, byHand, ratio } of ratios) console.log(`${name.padEnd(24)} ${ours.toFixed(1).padStart(8)} ${byHand.toFixed(1).padStart(8)}   ${ratio.toFixed(2)}×`);
const over = ratios.filter(({ ratio }) => ratio > 3).length;
console.log(`${ratios.length - over} of ${ratios.length} within 3×`);
mkdirSync('test-results', { recursive: true });
writeFileSync('test-results/bench.json', `${JSON.stringify({ functions: ratios }, null, 1)}\n`);
