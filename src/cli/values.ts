import type { Command } from 'commander';
import { nodeCodec, writeBytes } from '../hosts/node/files';
import { patchWorkbook, valuesCopy } from '../xlsx';
import { refuseOverwriting, refusing } from './open';
import { Progress } from './progress';
import { recalculated, reportUncertain } from './recalc-command';

export function addValues(program: Command): void {
  program
    .command('values')
    .summary('save a copy for those who have no Tarebook')
    .description(
      'Recalculates a workbook and saves a copy in which every TARE formula is its value. Ordinary formulas stay formulas; every other part is carried byte for byte.',
    )
    .argument('<workbook>', 'an .xlsx file; it stays as it is')
    .requiredOption('-o, --output <file>', 'where the copy goes')
    .addHelpText('after', '\nThe exit code is 1 where cells are in error; the copy is written all the same.')
    .action(async (path: string, { output }: { output: string }) => {
      await refuseOverwriting([['-o', output]], [path]);
      const progress = new Progress();
      const { bytes, changes, changed, bound, ...uncertain } = await recalculated(path, progress);
      const formulas = await refusing(output, async () => {
        progress.say(`Writing ${output}`);
        const fresh = changed + bound === 0 ? bytes : patchWorkbook(bytes, changes, nodeCodec);
        const copy = valuesCopy(fresh, nodeCodec);
        await writeBytes(output, copy.bytes);
        return copy.formulas;
      });
      progress.done();
      process.stdout.write(`${output}: ${toldOf(formulas)}\n`);
      reportUncertain(uncertain);
    });
}

function toldOf(formulas: number): string {
  if (formulas === 0) return 'no TARE formulas, the copy is as the workbook';
  return formulas === 1 ? '1 TARE formula is a value' : `${formulas} TARE formulas are values`;
}
