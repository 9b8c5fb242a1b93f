/** Microsoft's tools are started without a shell, so that no argument is split, and by Node on every system. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';

/** A script without types: by a name that the compiler does not follow. */
const TOOL: string = '../../tools/office-tools.mjs';
interface Command {
  readonly command: string;
  readonly args: readonly string[];
}
const { certificatesCommand, debuggingCommand, npmScript } = (await import(TOOL)) as {
  certificatesCommand(...args: string[]): Command;
  debuggingCommand(args: readonly string[], places?: object): Command | undefined;
  npmScript(places?: object): string | undefined;
};

const ADDRESS = 'https://place.example/Doc.aspx?sourcedoc={1}&file=my wing.xlsx&action=default';

it('an address with & stays one argument, on Windows too', () => {
  const npm = 'C:\\Program Files\\nodejs\\node_modules\\npm\\bin\\npm-cli.js';
  const found = debuggingCommand(['start', 'manifest.xml', 'web', '--document', ADDRESS], {
    env: { npm_execpath: npm },
    execPath: 'C:\\Program Files\\nodejs\\node.exe',
    exists: () => true,
  })!;
  expect(found.command).toBe('C:\\Program Files\\nodejs\\node.exe');
  expect(found.args[0]).toBe(npm);
  expect(found.args.at(-1)).toBe(ADDRESS);
  // As the script receives it, from Node itself.
  const given = spawnSync(process.execPath, ['-e', 'console.log(process.argv.at(-1))', ...found.args], {
    encoding: 'utf8',
  });
  expect(given.stdout.trim()).toBe(ADDRESS);
});

it('npm is found beside Node where nobody says where it is, and not invented', () => {
  expect(npmScript({ env: {} })).toMatch(/npm-cli\.js$/);
  expect(npmScript({ env: {}, execPath: '/nowhere/node', exists: () => false })).toBeUndefined();
  expect(debuggingCommand([], { env: {}, execPath: '/nowhere/node', exists: () => false })).toBeUndefined();
  // Another package manager's script is none of npm's.
  expect(npmScript({ env: { npm_execpath: '/x/yarn.js' }, execPath: '/nowhere/node', exists: () => true })).toBe(
    join('/nowhere', 'node_modules', 'npm', 'bin', 'npm-cli.js'),
  );
});

it('the tool for certificates is a package that is installed, and answers', () => {
  const { command, args } = certificatesCommand('--help');
  expect(existsSync(args[0]!)).toBe(true);
  expect(spawnSync(command, args, { encoding: 'utf8' }).stdout).toContain('install');
});
