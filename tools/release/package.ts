/** The command as a package of its own: what it needs to run, and nothing of how it is made. */
import { spawnSync } from 'node:child_process';
import { chmodSync, cpSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { writeInto } from './files';

interface Manifest {
  readonly name: string;
  readonly version: string;
  readonly license: string;
  readonly description: string;
  readonly engines: object;
  readonly dependencies: Readonly<Record<string, string>>;
}

/** Loaded by the command from beside its own files: it comes in the package, so that nothing else is installed. */
const BUNDLED = ['highs'];

/** Writes the tarball into `out`; gives its file name. */
export function packCommand(root: string, out: string, notices: string): string {
  const { name, version, license, description, engines, dependencies } = JSON.parse(
    readFileSync(join(root, 'package.json'), 'utf8'),
  ) as Manifest;
  const stage = join(out, '.package');
  rmSync(stage, { recursive: true, force: true });
  mkdirSync(stage, { recursive: true });
  for (const folder of ['dist/cli', 'dist/bench', 'sample-workbooks'])
    cpSync(join(root, folder), join(stage, folder), { recursive: true });
  for (const file of ['README.md', 'LICENSE', 'CHANGELOG.md']) cpSync(join(root, file), join(stage, file));
  for (const one of BUNDLED)
    cpSync(join(root, 'node_modules', one), join(stage, 'node_modules', one), { recursive: true, dereference: true });
  const bin = 'dist/cli/tarebook.mjs';
  chmodSync(join(stage, bin), 0o755);
  writeInto(join(stage, 'THIRD-PARTY-NOTICES.txt'), notices);
  writeInto(
    join(stage, 'package.json'),
    `${JSON.stringify(
      {
        name,
        version,
        description,
        license,
        type: 'module',
        bin: { tarebook: bin },
        engines,
        files: ['dist', 'sample-workbooks', 'CHANGELOG.md', 'THIRD-PARTY-NOTICES.txt'],
        dependencies: Object.fromEntries(BUNDLED.map((one) => [one, dependencies[one]!])),
        bundleDependencies: BUNDLED,
      },
      null,
      2,
    )}\n`,
  );
  const packed = spawnSync('npm', ['pack', '--json', '--ignore-scripts', '--pack-destination', out], {
    cwd: stage,
    encoding: 'utf8',
    shell: process.platform === 'win32',
  });
  rmSync(stage, { recursive: true, force: true });
  if (packed.status !== 0) throw new Error(`npm pack failed: ${packed.stderr.trim()}`);
  return (JSON.parse(packed.stdout) as { filename: string }[])[0]!.filename;
}
