/**
 * npm run compare [-- --cases N --seed S --second --all]: N invented formulas through our calculator and LibreOffice, those that differ
 * through IronCalc too with --second. What differs and is not explained in differences.ts is listed, and ends the command with 1;
 * --all lists what is explained, too.
 */
import { parseArgs } from 'node:util';
import { soffice } from '../../tests/helpers/programs';
import { byIronCalc, byLibreOffice, byTarebook } from './calculators';
import { Inventor } from './generate';
import { explanation } from './differences';
import { alike, written } from './same';
import type { Cell, Matrix } from '../../src/sheet';
import type { Asked } from './sheet';

const { values } = parseArgs({
  options: {
    cases: { type: 'string', default: '2000' },
    seed: { type: 'string', default: String(Date.now() % 100_000) },
    all: { type: 'boolean' },
    second: { type: 'boolean' },
  },
});
const office = soffice();
if (!office) throw new Error('LibreOffice is not here: install it, or put soffice on the path.');
/** Long texts are cut: REPT can give 32,767 characters. */
const shown = (value: Cell | Matrix): string => written(value).slice(0, 300);
const inventor = new Inventor(Number(values.seed));
const formulas = new Set<string>();
while (formulas.size < Number(values.cases)) formulas.add(inventor.formula());
const asked: Asked[] = [...formulas].map((formula) => ({ formula }));

const ours = byTarebook(asked);
const theirs = await byLibreOffice(office, asked);
const differing = asked.filter((_one, index) => !alike(ours[index]!, theirs[index]!));
const second = values.second ? byIronCalc(differing) : [];
let unexplained = 0;
const explained = new Map<string, number>();
asked.forEach((one, index) => {
  if (alike(ours[index]!, theirs[index]!)) return;
  const why = explanation(one.formula, ours[index]!, theirs[index]!);
  if (why) explained.set(why, (explained.get(why) ?? 0) + 1);
  if (!why) unexplained++;
  if (why && !values.all) return;
  console.log(
    `=${one.formula}\n    ours ${shown(ours[index]!)}  LibreOffice ${shown(theirs[index]!)}  IronCalc ${second[differing.indexOf(one)] ?? '-'}${why ? `\n    ${why}` : ''}`,
  );
});
for (const [why, count] of explained) console.log(`${count} × ${why}`);
console.log(`seed ${values.seed}: ${asked.length} formulas, ${unexplained} differences that nothing explains`);
process.exitCode = unexplained > 0 ? 1 : 0;
