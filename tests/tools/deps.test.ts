import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, describe, expect, it } from 'vitest';
import { readAudit } from '../../tools/deps/advisories';
import { isPermissive } from '../../tools/deps/licence';
import reasons from '../../tools/deps/reasons.json';
import { review } from '../../tools/deps/review';
import { table } from '../../tools/deps/table';

const root = fileURLToPath(new URL('../..', import.meta.url)).replace(/[\\/]$/, '');

let made: string | undefined;
afterEach(() => {
  if (made !== undefined) rmSync(made, { recursive: true, force: true });
  made = undefined;
});

/** A project in a folder of its own: package.json files by their folder, and other files by their path. */
function project(packages: Record<string, object>, files: Record<string, string> = {}): string {
  made = mkdtempSync(join(tmpdir(), 'tarebook-deps-'));
  for (const [folder, manifest] of Object.entries(packages)) {
    mkdirSync(join(made, folder), { recursive: true });
    writeFileSync(join(made, folder, 'package.json'), JSON.stringify(manifest));
  }
  for (const [path, text] of Object.entries(files)) writeFileSync(join(made, path), text);
  return made;
}

describe('the runtime dependencies of this project', () => {
  it('each have a reason, and permissive licences down to the last package', () => {
    const { rows, total, mend } = review(root, reasons);
    expect(mend).toEqual([]);
    expect(rows.length).toBeGreaterThan(20);
    expect(total.packages).toBeGreaterThan(rows.length);
    expect(rows.every(({ size, version }) => size > 0 && version !== '')).toBe(true);
  });

  it('are locked by version and digest, not by the place that one machine fetches them from', () => {
    const locked = Object.entries(
      (
        JSON.parse(readFileSync(`${root}/package-lock.json`, 'utf8')) as {
          packages: Record<string, { resolved?: string; integrity?: string }>;
        }
      ).packages,
    );
    expect(locked.filter(([, { resolved }]) => resolved !== undefined).map(([name]) => name)).toEqual([]);
    expect(
      locked.filter(([name, { integrity }]) => name !== '' && integrity === undefined).map(([name]) => name),
    ).toEqual([]);
  });
});

describe('what a made-up tree is blamed for', () => {
  const well = {
    '.': { dependencies: { saw: '1' } },
    'node_modules/saw': { name: 'saw', version: '1.0.0', license: 'MIT', dependencies: { blade: '1' } },
    'node_modules/blade': { name: 'blade', version: '1.2.0', license: 'ISC' },
  };

  it('nothing when all is well; sizes and counts are those of the files', () => {
    const { rows, total, mend } = review(project(well, { 'node_modules/blade/teeth.js': 'x'.repeat(1000) }), {
      saw: 'cuts',
    });
    const blade = 1000 + JSON.stringify(well['node_modules/blade']).length;
    const saw = JSON.stringify(well['node_modules/saw']).length;
    expect(mend).toEqual([]);
    expect(rows).toEqual([
      {
        name: 'saw',
        version: '1.0.0',
        licence: 'MIT',
        size: saw,
        brings: { packages: 1, size: blade },
        reason: 'cuts',
      },
    ]);
    expect(total).toEqual({ packages: 2, size: saw + blade });
  });

  it('a dependency without a reason, and a reason without a dependency', () => {
    const { mend } = review(project(well), { saw: ' ', file: 'smooths' });
    expect(mend).toEqual([
      expect.stringMatching(/^saw has no reason: say in .*reasons\.json/),
      expect.stringMatching(/^file has a reason but is no dependency: remove it from .*reasons\.json/),
    ]);
  });

  it('a dependency that is not installed', () => {
    expect(review(project({ '.': well['.'] }), { saw: 'cuts' }).mend).toEqual(['saw is not installed: run npm ci']);
  });

  it('a licence that is not permissive, however deep it lies, in the version that is used', () => {
    const tree = project({
      ...well,
      'node_modules/saw/node_modules/blade': {
        name: 'blade',
        version: '0.9.0',
        license: 'GPL-3.0',
        peerDependencies: { handle: '*' },
      },
      'node_modules/handle': { name: 'handle', version: '2.0.0' },
      'node_modules/stranger': { name: 'stranger', version: '1.0.0', license: 'UNLICENSED' },
    });
    expect(review(tree, { saw: 'cuts' }).mend).toEqual([
      expect.stringMatching(/^blade 0\.9\.0 has the licence GPL-3\.0, which is none of .*MIT/),
      expect.stringMatching(/^handle 2\.0\.0 has the licence \(none told\)/),
    ]);
  });

  it('a licence told by its file alone is read there', () => {
    const apart = { ...well, 'node_modules/blade': { name: 'blade', version: '1.2.0' } };
    expect(
      review(project(apart, { 'node_modules/blade/LICENSE': '   Apache License\n   Version 2.0, January 2004\n' }), {
        saw: 'cuts',
      }).mend,
    ).toEqual([]);
    rmSync(made!, { recursive: true });
    expect(
      review(project(apart, { 'node_modules/blade/LICENSE': 'All rights reserved.' }), { saw: 'cuts' }).mend,
    ).toHaveLength(1);
  });
});

it.each([
  ['MIT', true],
  ['(MIT OR GPL-3.0)', true],
  ['MIT AND Apache-2.0', true],
  ['MIT AND GPL-2.0', false],
  ['(GPL-2.0 OR LGPL-2.1)', false],
  ['MIT AND (GPL-2.0 OR MIT)', false],
  ['SEE LICENSE IN LICENSE.md', false],
  [undefined, false],
])('licence %s: permissive %s', (licence, permissive) => {
  expect(isPermissive(licence)).toBe(permissive);
});

describe('what npm audit prints', () => {
  it('an advisory names the package, the versions, how grave it is, what it says and how it is mended', () => {
    const printed = JSON.stringify({
      vulnerabilities: {
        blade: { severity: 'high', range: '<1.3.0', via: [{ title: 'breaks', url: 'advisory/1' }], fixAvailable: true },
        saw: { severity: 'high', range: '*', via: ['blade'], fixAvailable: false },
      },
    });
    expect(readAudit(printed)).toEqual({
      advisories: ['blade <1.3.0: high, breaks advisory/1; npm update blade mends it'],
    });
  });

  it('none', () => {
    expect(readAudit('{"vulnerabilities":{}}')).toEqual({ advisories: [] });
  });

  it('a registry that does not answer is told as that, never as no advisory', () => {
    expect(
      readAudit('{"message":"405 Method Not Allowed - POST https://registry.example/bulk","error":{"summary":""}}'),
    ).toEqual({ unasked: '405 Method Not Allowed' });
    expect(readAudit('{"message":"request to https://registry.example/bulk failed, reason: no such host"}')).toEqual({
      unasked: 'request to failed, reason: no such host',
    });
    expect(readAudit('')).toEqual({ unasked: 'npm audit gave no answer' });
  });
});

it('columns are aligned', () => {
  expect(
    table(
      ['name', '>size'],
      [
        ['saw', '12'],
        ['long one', '3'],
      ],
    ),
  ).toBe('name      size\n--------  ----\nsaw         12\nlong one     3');
});
