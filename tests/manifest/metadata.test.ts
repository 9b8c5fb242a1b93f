/** The functions' metadata is what Excel takes: by the published rules, and by Excel's rules of names. */
import { readFileSync } from 'node:fs';
import Ajv from 'ajv';
import { beforeAll, describe, expect, it } from 'vitest';
import { catalogue } from '../../src/functions';
import { functionsMetadata, type Metadata } from '../../src/hosts/excel/catalogue-files';
import { referencePages } from '../../src/functions/reference';

const schema = JSON.parse(readFileSync(new URL('custom-functions.schema.json', import.meta.url), 'utf8')) as object;
const pages = referencePages();
const ajv = new Ajv({ allErrors: true, strict: false });
const isValid = ajv.compile(schema);

function expectValid(metadata: unknown): void {
  const valid = isValid(metadata);
  expect(valid ? [] : (isValid.errors ?? []).map((error) => `${error.instancePath} ${error.message}`)).toEqual([]);
}

let metadata: Metadata;
beforeAll(() => {
  metadata = functionsMetadata('https://localhost:3000');
});

describe('the metadata file', () => {
  it('keeps the published schema', () => expectValid(JSON.parse(JSON.stringify(metadata))));

  it.each([
    ['a function without a result', { functions: [{ id: 'AREA.X', name: 'AREA.X', parameters: [] }] }],
    ['an underscore in an id', { functions: [{ id: 'AREA_X', name: 'AREA_X', parameters: [], result: {} }] }],
    ['a name of two letters', { functions: [{ id: 'AX', name: 'AX', parameters: [], result: {} }] }],
    [
      'a misspelt property',
      { functions: [{ id: 'AREA.X', name: 'AREA.X', parameter: [], parameters: [], result: {} }] },
    ],
    [
      'a help link that is not https',
      { functions: [{ id: 'AREA.X', name: 'AREA.X', helpUrl: 'http://x', parameters: [], result: {} }] },
    ],
  ])('the schema refuses %s', (_what, wrong) => expect(isValid(wrong)).toBe(false));

  it('has every function of the catalogue once, one with a name too short for Excel by its longer name', () => {
    const ids = metadata.functions.map(({ id }) => id);
    expect(new Set(ids.map((id) => id.toUpperCase())).size).toBe(ids.length);
    const left = catalogue.filter(({ name }) => !ids.includes(name));
    expect(left.map(({ name }) => name)).toEqual(['CG']);
    for (const short of left) {
      const twins = catalogue.filter(({ name, compute }) => ids.includes(name) && compute === short.compute);
      expect(
        twins.map(({ name }) => name),
        short.name,
      ).toEqual([`${short.name}.ARM`]);
    }
  });

  it('lets error cells of a column through', () => expect(metadata.allowErrorForDataTypeAny).toBe(true));
});

describe.each(functionsMetadata('https://localhost:3000').functions)('$id', (entry) => {
  const definition = catalogue.find(({ name }) => name === entry.id)!;

  it('has a name that Excel takes', () => {
    expect(`TARE.${entry.name}`.length).toBeLessThanOrEqual(40);
    expect(entry.name).not.toContain('_');
    // Excel saves dots as underscores: no two names may fall together then.
    expect(catalogue.filter(({ name }) => name.replaceAll('.', '_') === entry.name.replaceAll('.', '_'))).toHaveLength(
      1,
    );
    // Any cell up to XFD1048576, in either way of writing.
    for (const part of [entry.name, entry.name.replaceAll('.', '')])
      expect(part).not.toMatch(/^([A-Z]{1,3}\d+|R\d*C\d*|R\d*|C\d*)$/);
  });

  it('has the parameters of its definition, hints that fit, and columns where it takes them', () => {
    expect(entry.parameters.map(({ name, optional }) => [name, optional ?? false])).toEqual(
      definition.parameters.map(({ name, optional }) => [name, optional]),
    );
    for (const [index, parameter] of entry.parameters.entries()) {
      expect(parameter.description.length).toBeLessThanOrEqual(255);
      const wide = parameter.name !== 'units' && (definition.rowWise || definition.parameters[index]!.shape !== 'cell');
      expect(parameter.dimensionality, parameter.name).toBe(wide ? 'matrix' : 'scalar');
    }
  });

  it('has a help link that leads to its own page', () => {
    const page = pages[entry.helpUrl.replace('https://localhost:3000/functions/reference/', '')];
    expect(page, entry.helpUrl).toContain(`TARE.${entry.name}`);
  });
});
