/** Known advisories for the runtime dependencies, as npm's registry tells them. */
import { spawnSync } from 'node:child_process';

/** Advisories, one line each; or why they could not be asked for. */
export type Answer = { readonly advisories: readonly string[] } | { readonly unasked: string };

interface Vulnerability {
  readonly severity?: string;
  readonly range?: string;
  readonly via?: readonly (string | { readonly title?: string; readonly url?: string })[];
  readonly fixAvailable?: boolean | { readonly name: string; readonly version: string };
}

const fixOf = (name: string, fix: Vulnerability['fixAvailable']): string =>
  typeof fix === 'object'
    ? `take ${fix.name} ${fix.version}`
    : fix
      ? `npm update ${name} mends it`
      : 'no version mends it: replace it';

/** Reads what `npm audit --json` printed. */
export function readAudit(printed: string): Answer {
  let report: {
    message?: string;
    error?: { summary?: string };
    vulnerabilities?: Readonly<Record<string, Vulnerability>>;
  };
  try {
    report = JSON.parse(printed) as typeof report;
  } catch {
    return { unasked: 'npm audit gave no answer' };
  }
  if (report.vulnerabilities === undefined) {
    // The address that was asked says nothing to the reader.
    const why = (report.message ?? report.error?.summary ?? '').replace(/\s*(- )?([A-Z]+ )?https?:\S+/g, '').trim();
    return { unasked: why || 'npm audit gave no list' };
  }
  const advisories = Object.entries(report.vulnerabilities).flatMap(([name, { severity, range, via, fixAvailable }]) =>
    (via ?? [])
      // A package that is only affected through another is told by that other's line.
      .filter((cause) => typeof cause === 'object')
      .map(
        ({ title, url }) =>
          `${name} ${range ?? ''}: ${severity ?? 'unrated'}, ${title ?? 'an advisory'} ${url ?? ''}; ${fixOf(name, fixAvailable)}`,
      ),
  );
  return { advisories };
}

/** Asks npm's registry; waits half a minute at most. */
export function askAdvisories(root: string): Answer {
  const npm = spawnSync('npm', ['audit', '--json', '--omit=dev', '--fetch-retries=0', '--fetch-timeout=20000'], {
    cwd: root,
    encoding: 'utf8',
    timeout: 30_000,
    maxBuffer: 1 << 26,
    shell: process.platform === 'win32',
  });
  return readAudit(npm.stdout ?? '');
}
