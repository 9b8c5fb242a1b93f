/** `tarebook serve`: the bench in the browser, until it is ended. */
import { spawn } from 'node:child_process';
import { existsSync, realpathSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { InvalidArgumentError, type Command } from 'commander';
import { EXIT, Stop } from './terminal';
import { FIRST_PORT, PortError, serve } from './serve';

export function addServe(program: Command): void {
  program
    .command('serve')
    .description('Show the bench: the spreadsheet with the task pane beside it, in the browser on this computer.')
    .option('-p, --port <number>', 'the port; when it is taken, the next free one', toPort, FIRST_PORT)
    .option('--no-open', 'print the address and open no browser')
    .action(async ({ port, open }: { port: number; open: boolean }) => {
      // The command stands in dist/cli, the bench beside it.
      const root = dirname(dirname(dirname(realpathSync(process.argv[1]!))));
      const bench = join(root, 'dist', 'bench');
      if (!existsSync(join(bench, 'index.html'))) throw new Stop(EXIT.refused, 'The bench is not built: npm run build');
      const ended = untilEnded();
      const { address, close } = await serve({
        port,
        mounts: [
          { prefix: '/', folder: bench },
          { prefix: '/samples/', folder: join(root, 'sample-workbooks') },
        ],
      }).catch((error: unknown) => {
        throw error instanceof PortError ? new Stop(EXIT.refused, error.message) : error;
      });
      process.stdout.write(`\nTarebook is at ${address}   (Ctrl-C ends it)\n`);
      if (open && hasDisplay()) openBrowser(address);
      await ended;
      await close();
    });
}

function toPort(text: string): number {
  const port = Number(text);
  if (!Number.isInteger(port) || port < 0 || port > 65535)
    throw new InvalidArgumentError('a port is a whole number from 0 to 65535');
  return port;
}

const untilEnded = (): Promise<void> =>
  new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => resolve());
  });

const hasDisplay = (): boolean =>
  process.platform === 'darwin' ||
  process.platform === 'win32' ||
  Boolean(process.env['DISPLAY'] || process.env['WAYLAND_DISPLAY']);

/** Opens the address in the usual browser; where that fails, the printed address is there to be clicked. */
function openBrowser(address: string): void {
  const [command, ...args] =
    process.platform === 'darwin'
      ? ['open', address]
      : process.platform === 'win32'
        ? ['cmd', '/c', 'start', '', address]
        : ['xdg-open', address];
  const child = spawn(command, args, { stdio: 'ignore', detached: true });
  child.on('error', () => undefined);
  child.unref();
}
