/** LibreOffice as an outside spreadsheet: it recalculates a file, or says that it can open one. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

/** Always recalculate on loading: without it LibreOffice keeps the values that the file has. */
const RECALCULATE = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>`;

const profileArgument = (folder: string): string =>
  `-env:UserInstallation=${pathToFileURL(join(folder, 'profile')).href}`;

/** Makes a profile in a folder whose LibreOffice recalculates what it loads; returns the argument that names it. */
export function recalculatingProfile(folder: string): string {
  mkdirSync(join(folder, 'profile', 'user'), { recursive: true });
  writeFileSync(join(folder, 'profile', 'user', 'registrymodifications.xcu'), RECALCULATE);
  return profileArgument(folder);
}

const WORKBOOK = 'xlsx:Calc MS Excel 2007 XML';

interface Conversion {
  /** What the files become: how it ends, then its filter and settings where it needs them ("pdf"); a workbook if left out. */
  readonly to?: string;
  /** How the files end, and the filter that reads them where that does not say it. */
  readonly from?: { readonly ends: string; readonly filter: string };
  /** False: formulas keep the values that the file has. */
  readonly recalculates?: boolean;
}

/** The profiles of this process, which go with it: making one takes as long as converting a file. */
const profiles = new Map<boolean, string>();

function profileOfProcess(recalculates: boolean): string {
  const made = profiles.get(recalculates);
  if (made !== undefined) return made;
  const folder = mkdtempSync(join(tmpdir(), 'tarebook-lo-profile-'));
  process.once('exit', () => rmSync(folder, { recursive: true, force: true }));
  const profile = recalculates ? recalculatingProfile(folder) : profileArgument(folder);
  profiles.set(recalculates, profile);
  return profile;
}

/** Files as LibreOffice converts them, in one start of it. Throws what it says where one is not converted. */
export function convertedByLibreOffice(
  soffice: string,
  files: readonly Uint8Array[],
  { to = WORKBOOK, from = { ends: 'xlsx', filter: '' }, recalculates = true }: Conversion = {},
): Buffer[] {
  const folder = mkdtempSync(join(tmpdir(), 'tarebook-lo-'));
  try {
    const given = files.map((bytes, index) => {
      const path = join(folder, `${index}.${from.ends}`);
      writeFileSync(path, bytes);
      return path;
    });
    const out = join(folder, 'out');
    const done = spawnSync(
      soffice,
      [
        profileOfProcess(recalculates),
        '--headless',
        ...(from.filter ? [`--infilter=${from.filter}`] : []),
        '--convert-to',
        to,
        '--outdir',
        out,
        ...given,
      ],
      { encoding: 'utf8', timeout: 170_000 },
    );
    const [ends] = to.split(':');
    const made = files.map((_, index) => join(out, `${index}.${ends}`));
    if (done.status !== 0 || !made.every((path) => existsSync(path)))
      throw new Error(`LibreOffice: ${done.stderr || done.stdout}`);
    return made.map((path) => readFileSync(path));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The file as LibreOffice saves it again after recalculating every formula. */
export const recalculatedByLibreOffice = (soffice: string, xlsx: Uint8Array): Uint8Array =>
  convertedByLibreOffice(soffice, [xlsx])[0]!;
