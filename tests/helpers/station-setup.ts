/** Starts the station before the first test file and ends it after the last; it costs nothing until a test asks it for something. */
import { fileURLToPath } from 'node:url';
import type { TestProject } from 'vitest/node';
import { startStation } from './start-station';

const PARENT_LOOK_MS = 500;

/** A run whose own starter was killed is nobody's: it ends, and what it started with it. */
function endWithParent(): void {
  const parent = process.ppid;
  setInterval(() => {
    if (process.ppid !== parent) process.exit(1);
  }, PARENT_LOOK_MS).unref();
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  endWithParent();
  const { address, end } = await startStation(fileURLToPath(new URL('station.mjs', import.meta.url)));
  project.provide('station', address);
  return end;
}

declare module 'vitest' {
  export interface ProvidedContext {
    /** Address of the station. */
    station: string;
  }
}
