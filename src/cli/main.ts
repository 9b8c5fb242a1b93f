/** The `tarebook` command, run. */
import { EXIT } from './terminal';
import { run } from './program';

// A reader that has seen enough (`| head`) is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(EXIT.done);
  throw error;
});

/** Ends the process once its output is written: the engine keeps timers that would hold it open. */
function end(code: number): void {
  process.exitCode = code;
  process.stdout.write('', () => process.stderr.write('', () => process.exit(code)));
}

run(process.argv.slice(2)).then(end, (error: unknown) => {
  process.stderr.write(
    `A fault in Tarebook, please report it: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
  );
  end(EXIT.refused);
});
