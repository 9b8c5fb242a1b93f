/** Which version made a workbook. */
import { readdirSync, readFileSync } from 'node:fs';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { difference, madeBy, patchWorkbook, readWorkbook, VERSION, writeWorkbook } from '../../src/xlsx';

const url = (path: string): URL => new URL(path, import.meta.url);
const MODEL = { sheets: [{ name: 'Parts', cells: [[{ value: 1 }]], tables: [] }], names: [], styles: [] };

describe('the version that made a workbook', () => {
  it('is that of the package', () => {
    const { version } = JSON.parse(readFileSync(url('../../package.json'), 'utf8')) as { version: string };
    expect(version).toMatch(new RegExp(`^${VERSION.replace('.', '\\.')}\\.`));
  });

  it('is said by a new one, and by a copy that is saved over', async () => {
    const bytes = await writeWorkbook(MODEL);
    expect(madeBy(bytes)).toBe(VERSION);
    const loaded = readWorkbook(bytes);
    const changed = { ...loaded, sheets: [{ ...loaded.sheets[0]!, cells: [[{ value: 2 }]] }] };
    expect(madeBy(patchWorkbook(bytes, difference(loaded, { ...changed, loadedAs: [0] })))).toBe(VERSION);
  });

  it.each(readdirSync(url('../../sample-workbooks')).filter((name) => name.endsWith('.xlsx')))(
    'is said by the sample %s',
    (name) => expect(madeBy(readFileSync(url(`../../sample-workbooks/${name}`)))).toBe(VERSION),
  );

  it.each(readdirSync(url('fixtures/0.1')))('is the first of %s, which does not say it', (name) =>
    expect(madeBy(readFileSync(url(`fixtures/0.1/${name}`)))).toBe('0.1'),
  );

  it.each(['openpyxl', 'xlsxwriter', 'exceljs', 'libreoffice'])('is none of a workbook by %s', (name) =>
    expect(madeBy(readFileSync(url(`fixtures/${name}.xlsx`)))).toBeUndefined(),
  );

  it('is newer than the first, or that of the package', () => {
    const { version } = JSON.parse(readFileSync(url('../../package.json'), 'utf8')) as { version: string };
    const [own, packaged] = [VERSION, version].map((one) => one.split('.').map(Number) as [number, number]);
    expect(own![0] * 1000 + own![1]).toBeGreaterThanOrEqual(packaged![0] * 1000 + packaged![1]);
  });

  it('is no reason to refuse a workbook whose properties cannot be read', async () => {
    const parts = unzipSync(await writeWorkbook(MODEL));
    const broken = zipSync({ ...parts, 'docProps/custom.xml': strToU8('<Properties><property name="x') });
    expect(readWorkbook(broken).sheets[0]!.cells[0]![0]!.value).toBe(1);
    expect(madeBy(broken)).toBeUndefined();
  });
});
