/** The command in this process, with what it prints. */
import { vi } from 'vitest';
import { run } from '../../src/cli/program';

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

export async function tarebook(...args: string[]): Promise<Ran> {
  let out = '';
  let err = '';
  const spies = [
    vi.spyOn(process.stdout, 'write').mockImplementation((text) => ((out += String(text)), true)),
    vi.spyOn(process.stderr, 'write').mockImplementation((text) => ((err += String(text)), true)),
  ];
  try {
    const code = await run(args);
    // On a slow machine there are lines of progress.
    return { code, out, err: err.replace(/^(?:Reading|Starting|Calculated|Writing) .*\n/gm, '') };
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}
