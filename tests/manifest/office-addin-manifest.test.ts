/** Our manifests as Microsoft's own reader of them finds them; nothing is asked over the network. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { getOfficeAppsForManifestHosts, OfficeAddinManifest, OfficeApp } from 'office-addin-manifest';
import { afterAll, expect, it } from 'vitest';

/** A script without types: by a name that the compiler does not follow. */
const TOOL: string = '../../tools/manifest.mjs';
const { manifestFor } = (await import(TOOL)) as { manifestFor(host: string): Promise<string> };

const folder = mkdtempSync(join(tmpdir(), 'tarebook-manifest-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it.each([
  ['https://localhost:3000', 'Tarebook (development)'],
  ['https://planes.example/shop/tarebook/0.1.0', 'Tarebook'],
])('of %s is read as what it is', async (host, name) => {
  const file = join(folder, 'manifest.xml');
  writeFileSync(file, await manifestFor(host));
  const found = await OfficeAddinManifest.readManifestFile(file);
  expect(found).toMatchObject({
    displayName: name,
    defaultLocale: 'en-US',
    hosts: ['Workbook'],
    officeAppType: 'TaskPaneApp',
    permissions: 'ReadWriteDocument',
    providerName: 'Tarebook',
    iconUrl: `${host}/pane/icons/icon-32.png`,
    defaultSettings: { sourceLocation: `${host}/pane/index.html` },
  });
  expect(found.version).toMatch(/^\d+\.\d+\.\d+\.\d+$/);
  expect(getOfficeAppsForManifestHosts(found.hosts)).toEqual([OfficeApp.Excel]);
});
