/**
 * Microsoft's tools for an add-in under development, as commands without a shell: on Windows a shell would split an
 * address at "&". The certificates' tool is a package of ours. The one that opens Excel is fetched when somebody asks
 * for it: office-addin-dev-settings, which it needs, names @microsoft/m365agentstoolkit-cli as a peer, which brings
 * some 450 packages, three of them compiled when they are installed (keytar, @azure/msal-node-extensions, the kit).
 */
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

/** What is fetched to open Excel. */
export const DEBUGGING = 'office-addin-debugging@7.0.0';

/** The tool for certificates, with arguments. */
export function certificatesCommand(...args) {
  const tool = createRequire(import.meta.url).resolve('office-addin-dev-certs/package.json');
  return { command: process.execPath, args: [join(dirname(tool), 'cli.js'), ...args] };
}

/** npm's own script, run by Node: npm.cmd cannot be started without a shell. undefined where it is not found. */
export function npmScript({ env = process.env, execPath = process.execPath, exists = existsSync } = {}) {
  const places = [
    env.npm_execpath,
    join(dirname(execPath), 'node_modules', 'npm', 'bin', 'npm-cli.js'),
    join(dirname(execPath), '..', 'lib', 'node_modules', 'npm', 'bin', 'npm-cli.js'),
  ];
  return places.find((place) => place && /npm-cli\.js$/.test(place) && exists(place));
}

/** The tool that opens Excel with the add-in, fetched by npm; each argument goes to it as it is. */
export function debuggingCommand(args, places = {}) {
  const script = npmScript(places);
  if (!script) return undefined;
  return { command: places.execPath ?? process.execPath, args: [script, 'exec', '--yes', '--', DEBUGGING, ...args] };
}
