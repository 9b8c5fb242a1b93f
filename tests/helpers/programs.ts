/**
 * Programs outside the project that tests compare with. Where one is missing the test is skipped and
 * says so; in CI (CI=true) it is a failure, since tools/test.mjs installs them there.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import outside from '../../tools/outside.json';

const answers = (command: string, ...args: string[]): boolean =>
  spawnSync(command, args, { stdio: 'ignore' }).status === 0;
const first = (...candidates: (string | undefined)[]): string | undefined =>
  candidates.find((path) => path !== undefined && existsSync(path));

function orSkip(found: string | undefined, name: string): string | undefined {
  if (found === undefined) {
    if (process.env['CI'] === 'true') throw new Error(`${name} is missing, and CI must have it`);
    console.log(`skipped: ${name} is not here`);
  }
  return found;
}

/** Path of a Chromium or Chrome, with its windows. */
export const chromium = (): string | undefined =>
  orSkip(
    first(
      process.env['CHROME_PATH'],
      '/usr/bin/chromium',
      '/usr/bin/chromium-browser',
      '/usr/bin/google-chrome',
      '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
      'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
    ),
    'Chromium',
  );

/**
 * Path of a Chromium that shows pages without windows, where there is one: it takes a twentieth of a run less. What a
 * browser has around its pages (apps, profiles) is tried in one that has it.
 */
export const chromiumOfPages = (): string | undefined =>
  first(process.env['CHROME_PATH'], '/usr/bin/chromium-headless-shell') ?? chromium();

/** Path of LibreOffice. */
export const soffice = (): string | undefined =>
  orSkip(
    first(
      '/usr/bin/soffice',
      '/Applications/LibreOffice.app/Contents/MacOS/soffice',
      'C:\\Program Files\\LibreOffice\\program\\soffice.exe',
    ),
    'LibreOffice',
  );

/** A Python that has the modules; throws where the list of what CI installs lacks one, also on a machine that has it. */
export function python(...modules: readonly string[]): string | undefined {
  const lacking = modules.filter((module) => !outside.some(({ name }) => name === module));
  if (lacking.length > 0) throw new Error(`tools/outside.json does not bring Python's ${lacking.join(', ')}`);
  return orSkip(
    ['/usr/bin/python3', 'python3', 'python'].find((command) => answers(command, '-c', `import ${modules.join(', ')}`)),
    `Python with ${modules.join(', ')}`,
  );
}

/** OpenSSL, for certificates. */
export const openssl = (): string | undefined =>
  orSkip(answers('openssl', 'version') ? 'openssl' : undefined, 'OpenSSL');

/** GNU units. */
export const gnuUnits = (): string | undefined =>
  orSkip(answers('units', '--version') ? 'units' : undefined, 'GNU units');
