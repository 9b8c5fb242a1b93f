/**
 * The add-in's manifest by the rules of its schema, for development and for a host.
 * Order and content of elements: Microsoft, "Schema reference for Office Add-ins manifests (v1.1)" and the
 * reference page of each element; lengths of resources: the page of the Resources element.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { NAMESPACE } from '../../src/functions';
import { all, named, parseXml, type Element } from './xml-tree';

// A plain script, so that a package need not be built to write a manifest.
/** A script without types: by a name that the compiler does not follow. */
const TOOL: string = '../../tools/manifest.mjs';
const { manifestFor } = (await import(TOOL)) as {
  manifestFor(host: string): Promise<string>;
};

const file = (path: string): Buffer => readFileSync(new URL(`../../${path}`, import.meta.url));

/** Children in the order in which the schema has them. */
const ORDER: Readonly<Record<string, readonly string[]>> = {
  OfficeApp: [
    'Id',
    'AlternateId',
    'Version',
    'ProviderName',
    'DefaultLocale',
    'DisplayName',
    'Description',
    'IconUrl',
    'HighResolutionIconUrl',
    'SupportUrl',
    'AppDomains',
    'Hosts',
    'Requirements',
    'DefaultSettings',
    'Permissions',
    'VersionOverrides',
  ],
  Requirements: ['Sets'],
  DefaultSettings: ['SourceLocation'],
  VersionOverrides: ['Description', 'Requirements', 'Hosts', 'Resources'],
  Host: ['Runtimes', 'AllFormFactors', 'DesktopFormFactor'],
  DesktopFormFactor: ['GetStarted', 'FunctionFile', 'ExtensionPoint'],
  GetStarted: ['Title', 'Description', 'LearnMoreUrl'],
  OfficeTab: ['Group'],
  Group: ['Label', 'Icon', 'Control'],
  Control: ['Label', 'Supertip', 'Icon', 'Action'],
  Supertip: ['Title', 'Description'],
  Action: ['TaskpaneId', 'SourceLocation'],
  Resources: ['bt:Images', 'bt:Urls', 'bt:ShortStrings', 'bt:LongStrings'],
};
const CUSTOM_FUNCTIONS = ['Script', 'Page', 'Metadata', 'Namespace'];
const REQUIRED: Readonly<Record<string, readonly string[]>> = {
  OfficeApp: [
    'Id',
    'Version',
    'ProviderName',
    'DefaultLocale',
    'DisplayName',
    'Description',
    'IconUrl',
    'HighResolutionIconUrl',
    'SupportUrl',
    'Hosts',
    'DefaultSettings',
    'Permissions',
  ],
  Control: ['Label', 'Supertip', 'Icon', 'Action'],
  Group: ['Label', 'Icon', 'Control'],
  GetStarted: ['Title', 'Description', 'LearnMoreUrl'],
};

const ordered = (element: Element, order: readonly string[]): void => {
  const places = element.children.map(({ name }) => order.indexOf(name));
  expect(
    element.children.map(({ name }) => name).filter((name) => !order.includes(name)),
    element.path,
  ).toEqual([]);
  expect(places, element.path).toEqual([...places].sort((a, b) => a - b));
};

const HOSTS = ['https://localhost:3000', 'https://tarebook.example/app'];

describe.each(HOSTS)('the manifest for %s', async (host) => {
  const root = parseXml(await manifestFor(host));
  const resources = new Map(
    all(root).flatMap((element) =>
      element.attributes.id && element.name.startsWith('bt:') ? [[element.attributes.id, element] as const] : [],
    ),
  );
  const used = all(root).flatMap((element) => (element.attributes.resid ? [element] : []));

  it('has its elements in the order of the schema, and those that are required', () => {
    for (const element of all(root)) {
      if (ORDER[element.name]) ordered(element, ORDER[element.name]!);
      for (const name of REQUIRED[element.name] ?? [])
        expect(
          element.children.map((child) => child.name),
          element.path,
        ).toContain(name);
      if (element.attributes['xsi:type'] === 'CustomFunctions')
        expect(element.children.map(({ name }) => name)).toEqual(CUSTOM_FUNCTIONS);
    }
  });

  it('has an id, a version and a locale of the right form', () => {
    const text = (name: string): string => named(root, name)[0]!.text;
    expect(text('Id')).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(text('Version')).toMatch(/^[1-9]\d{0,4}(\.\d{1,5}){3}$/);
    expect(text('DefaultLocale')).toBe('en-US');
    expect(text('Permissions')).toBe('ReadWriteDocument');
  });

  it('keeps the lengths', () => {
    const value = (element: Element): string => element.attributes.DefaultValue ?? '';
    expect(value(root.children.find(({ name }) => name === 'DisplayName')!).length).toBeLessThanOrEqual(125);
    expect(value(root.children.find(({ name }) => name === 'Description')!).length).toBeLessThanOrEqual(250);
    for (const element of named(root, 'bt:ShortStrings')[0]!.children)
      expect(value(element).length, element.attributes.id).toBeLessThanOrEqual(125);
    for (const element of named(root, 'bt:LongStrings')[0]!.children)
      expect(value(element).length, element.attributes.id).toBeLessThanOrEqual(250);
    for (const id of resources.keys()) expect(id.length, id).toBeLessThanOrEqual(32);
    for (const element of all(root))
      expect((element.attributes.id ?? '').length, element.path).toBeLessThanOrEqual(125);
  });

  it('resolves every resource to one of the right kind, and leaves none unused', () => {
    for (const element of used) {
      const wanted =
        element.name === 'bt:Image'
          ? 'bt:Images'
          : /Url$|SourceLocation/.test(element.name)
            ? 'bt:Urls'
            : element.name === 'Description'
              ? 'bt:LongStrings'
              : 'bt:ShortStrings';
      expect(resources.get(element.attributes.resid!)?.path, `${element.path} ${element.attributes.resid}`).toContain(
        `/${wanted}/`,
      );
    }
    expect([...resources.keys()].filter((id) => !used.some((element) => element.attributes.resid === id))).toEqual([]);
    const ids = all(root).flatMap((element) => element.attributes.id ?? []);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('names https addresses of its host alone', () => {
    const urls = all(root)
      .flatMap((element) => [element.attributes.DefaultValue ?? '', element.text.trim()])
      .filter((value) => value.includes('://'));
    expect(urls.length).toBeGreaterThan(8);
    for (const url of urls) expect(url).toMatch(new RegExp(`^${host.replaceAll('.', '\\.')}/`));
  });

  it('points at icons of the sizes it says', () => {
    const sizes = new Map<string, number>(
      [...used].flatMap((element) =>
        element.name === 'bt:Image' ? [[element.attributes.resid!, Number(element.attributes.size)] as const] : [],
      ),
    );
    expect(new Set(sizes.values())).toEqual(new Set([16, 32, 64, 80]));
    for (const [id, size] of sizes) expect(pngSize(resources.get(id)!.attributes.DefaultValue!)).toEqual([size, size]);
    expect(pngSize(named(root, 'IconUrl')[0]!.attributes.DefaultValue!)).toEqual([32, 32]);
    expect(pngSize(named(root, 'HighResolutionIconUrl')[0]!.attributes.DefaultValue!)).toEqual([64, 64]);
  });

  it('asks for no more of Excel than it needs', () => {
    const sets = named(root, 'Set').map(({ attributes }) => [attributes.Name, attributes.MinVersion]);
    expect(sets).toEqual([
      ['CustomFunctionsRuntime', '1.1'],
      // Below it Excel tells a pane of no edit in the sheets (tests/hosts/excel/workbook-contract.test.ts).
      ['ExcelApi', '1.9'],
    ]);
    expect(named(root, 'Host').map(({ attributes }) => attributes.Name ?? attributes['xsi:type'])).toEqual([
      'Workbook',
      'Workbook',
    ]);
  });

  it('gives the functions the namespace of the catalogue', () => {
    const id = named(root, 'Namespace')[0]!.attributes.resid!;
    expect(resources.get(id)!.attributes.DefaultValue).toBe(NAMESPACE);
  });
});

/** Width and height from the header of the icon file that an address stands for. */
function pngSize(url: string): [number, number] {
  const png = file(`manifest/icons/${url.slice(url.lastIndexOf('/') + 1)}`);
  expect(png.subarray(1, 4).toString('latin1')).toBe('PNG');
  return [png.readUInt32BE(16), png.readUInt32BE(20)];
}

describe('the manifest in the repository', () => {
  it('is the one that its source gives for development', async () => {
    expect(file('manifest/manifest.xml').toString()).toBe(await manifestFor('https://localhost:3000'));
  });

  it('has an id of its own, so that Excel can have both; and a hosted one keeps its own wherever it is', async () => {
    const id = async (host: string): Promise<string> => named(parseXml(await manifestFor(host)), 'Id')[0]!.text;
    expect(await id('https://localhost:4000')).toBe(await id(HOSTS[0]!));
    expect(await id('https://other.example')).toBe(await id(HOSTS[1]!));
    expect(await id(HOSTS[0]!)).not.toBe(await id(HOSTS[1]!));
  });

  it('is told apart from a hosted one by its name', async () => {
    const name = async (host: string): Promise<string> =>
      named(parseXml(await manifestFor(host)), 'DisplayName')[0]!.attributes.DefaultValue!;
    expect(await name(HOSTS[0]!)).toBe('Tarebook (development)');
    expect(await name(HOSTS[1]!)).toBe('Tarebook');
  });

  it.each(['http://tarebook.example', 'tarebook.example', 'https://tarebook.example/?a=1', ''])(
    'no manifest is written for %j',
    async (host) => {
      await expect(manifestFor(host)).rejects.toThrow('must be an https address');
    },
  );

  it('an icon of 128 is there for a listing', () => expect(pngSize('https://x/icon-128.png')).toEqual([128, 128]));
});
