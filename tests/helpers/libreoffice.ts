/** LibreOffice as an outside spreadsheet: it recalculates a file, or says that it can open one. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

/** Always recalculate on loading: without it LibreOffice keeps the values that the file has. */
const RECALCULATE = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>`;

/** Makes a profile in a folder whose LibreOffice recalculates what it loads; returns the argument that names it. */
export function recalculatingProfile(folder: string): string {
  mkdirSync(join(folder, 'profile', 'user'), { recursive: true });
  writeFileSync(join(folder, 'profile', 'user', 'registrymodifications.xcu'), RECALCULATE);
  return `-env:UserInstallation=${pathToFileURL(join(folder, 'profile')).href}`;
}

/** The profile of this process, which goes with it: making one takes as long as recalculating a file. */
let profile: string | undefined;

function profileOfProcess(): string {
  const folder = mkdtempSync(join(tmpdir(), 'tarebook-lo-profile-'));
  process.once('exit', () => rmSync(folder, { recursive: true, force: true }));
  return recalculatingProfile(folder);
}

/** The file as LibreOffice saves it again after recalculating every formula. */
export function recalculatedByLibreOffice(soffice: string, xlsx: Uint8Array): Uint8Array {
  const folder = mkdtempSync(join(tmpdir(), 'tarebook-lo-'));
  try {
    profile ??= profileOfProcess();
    writeFileSync(join(folder, 'in.xlsx'), xlsx);
    const done = spawnSync(
      soffice,
      [
        profile,
        '--headless',
        '--convert-to',
        'xlsx:Calc MS Excel 2007 XML',
        '--outdir',
        join(folder, 'out'),
        join(folder, 'in.xlsx'),
      ],
      { encoding: 'utf8', timeout: 170_000 },
    );
    if (done.status !== 0) throw new Error(`LibreOffice: ${done.stderr || done.stdout}`);
    return readFileSync(join(folder, 'out', 'in.xlsx'));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
