/** Rules that every definition keeps, whatever it computes. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { call, catalogue, FAMILIES, findDefinition, unitsPlace, type Definition } from '../../src/functions';

/** What a saved formula relies on, as version 0.1 had it. Never edited: a formula of then means the same today. */
const FIRST_CATALOGUE = JSON.parse(
  readFileSync(new URL('catalogue-0.1.json', import.meta.url), 'utf8'),
) as readonly Stored[];

interface Stored {
  readonly name: string;
  readonly rowWise: boolean;
  readonly parameters: readonly {
    readonly name: string;
    readonly kind: string;
    readonly shape: string;
    readonly optional: boolean;
    readonly dimension?: string;
    readonly default?: unknown;
    readonly choices?: readonly string[];
  }[];
  readonly result: { readonly kind: string; readonly dimensions: readonly (string | null)[] };
}

const resultOf = ({ result }: Definition): Stored['result'] => ({
  kind: result.kind,
  dimensions:
    result.kind === 'table' ? result.columns.map(({ dimension }) => dimension ?? null) : [result.dimension ?? null],
});

describe('the catalogue', () => {
  it('has no name twice', () => {
    const names = catalogue.map((definition) => definition.name);
    expect(new Set(names).size).toBe(names.length);
  });

  it.each(catalogue)('$name is well formed', (definition) => {
    const { name, parameters, examples, source, summary } = definition;
    // Excel saves a dot as an underscore, so an underscore of our own would collide; 40 leaves room for the namespace.
    expect(name).toMatch(/^[A-Z]+(\.[A-Z]+)*$/);
    expect(`TARE.${name}`.length).toBeLessThanOrEqual(40);
    // Without its dots it must not read as a cell (AB12) or a row-column reference (R1C1).
    expect(name).not.toMatch(/^([A-Z]{1,3}\d+|R\d*C\d*)$/);
    expect(FAMILIES).toContain(definition.family);
    expect(summary).toMatch(/^[A-Z].*\.$/);
    expect(summary.length).toBeLessThanOrEqual(200);
    expect(source.length).toBeGreaterThan(3);
    expect(examples.length).toBeGreaterThan(0);
    const firstOptional = parameters.findIndex((parameter) => parameter.optional);
    if (firstOptional >= 0) expect(parameters.slice(firstOptional).every((parameter) => parameter.optional)).toBe(true);
    for (const parameter of parameters) {
      expect(parameter.name).toMatch(/^[a-z]+(_[a-z]+)*$/);
      expect(parameter.help.length).toBeGreaterThan(2);
      expect(parameter.takes('in-lb').length).toBeGreaterThan(3);
    }
    expect(new Set(parameters.map((parameter) => parameter.name)).size).toBe(parameters.length);
  });

  it.each(catalogue.filter((definition) => definition.parameters.some((parameter) => parameter.dimension)))(
    '$name takes units, behind all parameters of version 0.1',
    ({ name, parameters }) => {
      const place = unitsPlace(parameters);
      expect(place).toBeGreaterThan(0);
      const first = FIRST_CATALOGUE.find((one) => one.name === name);
      if (first) expect(place).toBe(first.parameters.findIndex((parameter) => parameter.name === 'units'));
    },
  );
});

describe('signatures are only added to', () => {
  it.each(FIRST_CATALOGUE)('$name', (before) => {
    const now = findDefinition(before.name)!;
    expect(now, 'a function that a saved formula calls is gone').toBeDefined();
    expect(now.rowWise).toBe(before.rowWise);
    before.parameters.forEach((old, place) => {
      const parameter = now.parameters[place]!;
      const { name, kind, shape } = old;
      expect({ name: parameter.name, kind: parameter.kind, shape: parameter.shape }).toEqual({ name, kind, shape });
      expect(parameter.dimension).toBe(old.dimension);
      expect(parameter.default).toEqual(old.default);
      expect(parameter.choices ?? []).toEqual(expect.arrayContaining([...(old.choices ?? [])]));
      // What could be left out can be left out for ever.
      if (old.optional) expect(parameter.optional).toBe(true);
    });
    const added = now.parameters.slice(before.parameters.length);
    expect(added.every(({ optional }) => optional)).toBe(true);
    const result = resultOf(now);
    expect(result.kind).toBe(before.result.kind);
    expect(result.dimensions.slice(0, before.result.dimensions.length)).toEqual(before.result.dimensions);
  });

  it('parameters behind units are read, and units stay units', () => {
    const definition = findDefinition('ROLLUP.BAND')!;
    const rows = (...cells: (string | number)[]) => cells.map((cell) => [cell]);
    const skins = (...behind: unknown[]) =>
      call(definition, [rows('Skin', 'Skin'), rows(10, 10), rows(0.03, 0.04), 1, null, null, ...(behind as never[])]);
    expect(skins()).toEqual(skins(null, null, null));
    expect(skins()).toMatchObject([['Skin', 20, expect.closeTo(0.5, 12), expect.closeTo(0.7, 12)], {}]);
    for (const units of [null, 'in-lb', 'mm-kg'])
      expect(skins(units, rows('2024-T3', '2024-T3'), rows('.025', 0.025))).toMatchObject([
        ['Skin', expect.closeTo(20, 12), expect.closeTo(0.7, 12), expect.closeTo(0.7, 12)],
        {},
      ]);
    expect(skins(null, rows('2024-T3', '2024-T3'), rows(0.025, 0.032))).toEqual(skins());
    expect(skins(null, rows('2024-T3', ''), rows(0.025, ''))).toEqual(skins());
  });
});
