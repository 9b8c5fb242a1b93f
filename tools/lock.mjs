import { mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

/** Does the work while no other process does work under the same lock file; a lock of a dead process counts for nothing. */
export async function withLock(file, work) {
  await mkdir(dirname(file), { recursive: true });
  for (;;) {
    try {
      await writeFile(file, String(process.pid), { flag: 'wx' });
      break;
    } catch (error) {
      if (error.code !== 'EEXIST') throw error;
      const owner = Number(await readFile(file, 'utf8').catch(() => ''));
      if (owner && !isAlive(owner)) await rm(file, { force: true });
      else await pause(200);
    }
  }
  try {
    return await work();
  } finally {
    await rm(file, { force: true });
  }
}

function isAlive(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === 'EPERM';
  }
}
