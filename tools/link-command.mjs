/**
 * Puts the project's own command where `npx tarebook` looks for it: npx finds the name in package.json
 * and then runs node_modules/.bin/tarebook, which npm makes for dependencies only.
 */
import { chmodSync, mkdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const target = 'src/cli/tarebook.mjs';
const link = `${root}node_modules/.bin/tarebook`;

mkdirSync(`${root}node_modules/.bin`, { recursive: true });
rmSync(link, { force: true });
if (process.platform === 'win32') {
  writeFileSync(`${link}.cmd`, `@node "%~dp0\\..\\..\\${target.replaceAll('/', '\\')}" %*\r\n`);
} else {
  chmodSync(`${root}${target}`, 0o755);
  symlinkSync(`../../${target}`, link);
}
