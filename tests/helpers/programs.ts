/**
 * Programs outside the project that tests compare with. Where one is missing the test is skipped and
 * says so; in CI (CI=true) it is a failure, since tools/test.mjs installs them there.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

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

/** Path of a Chromium or Chrome. */
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

/** A Python that has the module. */
export const python = (module: string): string | undefined =>
  orSkip(
    ['/usr/bin/python3', 'python3', 'python'].find((command) => answers(command, '-c', `import ${module}`)),
    `Python with ${module}`,
  );

/** OpenSSL, for certificates. */
export const openssl = (): string | undefined =>
  orSkip(answers('openssl', 'version') ? 'openssl' : undefined, 'OpenSSL');

/** GNU units. */
export const gnuUnits = (): string | undefined =>
  orSkip(answers('units', '--version') ? 'units' : undefined, 'GNU units');
