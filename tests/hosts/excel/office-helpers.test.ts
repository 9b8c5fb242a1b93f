import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

/** The browser's storage, as far as the helpers use it. */
class FakeStorage {
  getItem(key: string): string | null {
    return Object.hasOwn(this, key) ? String((this as unknown as Record<string, unknown>)[key]) : null;
  }
  setItem(key: string, value: string): void {
    (this as unknown as Record<string, string>)[key] = value;
  }
}

async function helpers(localStorage: unknown, office?: unknown) {
  vi.resetModules();
  vi.stubGlobal('window', { localStorage, sessionStorage: new FakeStorage(), Office: office });
  return import('../../../src/hosts/excel/office-helpers');
}

beforeEach(() => vi.unstubAllGlobals());
afterEach(() => vi.unstubAllGlobals());

describe('settings in Excel', () => {
  it.each(['view', '2026-03-01T10:00:00.000Z', '{"a":1}', '007', 'true', ''])(
    'keep the text %j as it is',
    async (text) => {
      const { excelSettings } = await helpers(new FakeStorage());
      const settings = excelSettings(undefined);
      settings.set('some.key', text);
      expect(settings.get('some.key')).toBe(text);
      expect(settings.get('other.key')).toBeUndefined();
    },
  );

  it('are kept apart by the part that Excel on the web sets aside', async () => {
    const { excelSettings } = await helpers(new FakeStorage());
    excelSettings('site-a').set('key', 'a');
    expect(excelSettings('site-a').get('key')).toBe('a');
    expect(excelSettings('site-b').get('key')).toBeUndefined();
  });

  it('last as long as the pane where the browser refuses to keep any', async () => {
    const { excelSettings } = await helpers(undefined);
    const settings = excelSettings(undefined);
    settings.set('key', 'value');
    expect(settings.get('key')).toBe('value');
  });
});

describe('the host', () => {
  it.each([
    [{ context: { host: 'Excel', platform: 'PC' } }, true, 'Windows'],
    [{ context: { host: 'Excel', platform: 'OfficeOnline' } }, true, 'the web'],
    [{ context: { host: 'Word', platform: 'Mac' } }, false, 'Mac'],
    [undefined, false, 'an unknown platform'],
  ])('of %j', async (office, inExcel, platform) => {
    const { isInExcel, platformName } = await helpers(new FakeStorage(), office);
    expect([isInExcel(), platformName()]).toEqual([inExcel, platform]);
  });
});
