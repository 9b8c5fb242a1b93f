/** The commands of `tarebook` and how they end. */
import { Command, CommanderError } from 'commander';
import { addCut } from './cut-command';
import { addEvaluate } from './evaluate-command';
import { EXIT, shown, Stop } from './terminal';
import { addFunctions } from './functions-command';
import { addMatch } from './match-command';
import { addRecalculate, addValues } from './recalc-command';
import { addReport } from './report-command';
import { addServe } from './serve-command';

/** In the order in which the help lists them. */
const COMMANDS = [addEvaluate, addRecalculate, addValues, addReport, addMatch, addCut, addFunctions, addServe];

function build(): Command {
  const program = new Command('tarebook')
    .description(
      'Weight, balance, rivets and cost of a home-built all-metal airplane, from the workbook that holds its parts list.',
    )
    .addHelpText(
      'after',
      '\nExit codes: 0 done; 1 done, with an error value or cells in error; 2 refused: a wrong command line, or a file that cannot be read or written.',
    )
    .showHelpAfterError('(tarebook --help lists the commands, tarebook COMMAND --help explains one)')
    .configureHelp({ showGlobalOptions: false });
  for (const add of COMMANDS) add(program);
  return program;
}

/** Runs a command line (without node and script) and returns the exit code. */
export async function run(args: readonly string[]): Promise<number> {
  const program = build();
  const all = [program, ...program.commands];
  for (const command of all) command.exitOverride();
  try {
    await program.parseAsync(args, { from: 'user' });
    return EXIT.done;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.refused;
    if (error instanceof Stop) {
      if (error.message) process.stderr.write(`${shown(error.message)}\n`);
      return error.code;
    }
    throw error;
  }
}
