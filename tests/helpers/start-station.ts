/** Starts the station (station.mjs), which costs nothing until somebody asks it for something. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';

/** @param program path of station.mjs: a bundled caller stands elsewhere than this file */
export async function startStation(program: string): Promise<{ readonly address: string; end(): Promise<void> }> {
  const station = spawn(process.execPath, [program], { stdio: ['pipe', 'pipe', 'inherit'] });
  const [address] = (await once(station.stdout, 'data')) as [Buffer];
  return {
    address: address.toString().trim(),
    async end() {
      const ended = once(station, 'exit');
      station.stdin.end();
      await ended;
    },
  };
}
