/** Rules that every definition keeps, whatever it computes. */
import { describe, expect, it } from 'vitest';
import { catalogue, FAMILIES } from '../../src/functions';

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
    '$name ends with units',
    (definition) => {
      expect(definition.parameters.at(-1)?.name).toBe('units');
    },
  );
});
