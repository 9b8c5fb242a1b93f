import { describe, expect, it } from 'vitest';
import { catalogue } from '../../../../src/functions';
import { foldedFields, INSERTABLE, isDrawn, search } from '../../../../src/pane/views/formula/definitions';

const names = (query: string, family: Parameters<typeof search>[1] = ''): string[] =>
  search(query, family).map(({ name }) => name);

describe('the functions that can be inserted', () => {
  it('are all of the catalogue, a short name by its longer one', () => {
    expect(INSERTABLE.map(({ name }) => name).sort()).toEqual(
      catalogue
        .map(({ name }) => name)
        .filter((name) => name !== 'CG')
        .sort(),
    );
    expect(names('cg')[0]).toBe('CG.ARM');
  });

  it('stand by family, those with a drawing first', () => {
    const families = INSERTABLE.map(({ family }) => family);
    expect(families).toEqual([...families].sort((a, b) => families.indexOf(a) - families.indexOf(b)));
    for (const family of new Set(families)) {
      const drawn = INSERTABLE.filter((one) => one.family === family).map(isDrawn);
      expect(drawn).toEqual([...drawn].sort((a, b) => Number(b) - Number(a)));
    }
  });

  it('are found by their names, summaries and parameters, the most telling first', () => {
    expect(names('channel')[0]).toBe('FLAT.CHANNEL');
    expect(names('flange')[0]).toBe('AREA.HOLES');
    expect(names('flange')).toContain('FLAT.CHANNEL');
    expect(names('=TARE.FLAT.CH')).toEqual(['FLAT.CHANNEL']);
    expect(names('leg_b thickness')).toContain('FLAT.ZEE');
    expect(names('rivet weight')[0]).toBe('RIVET.WEIGHT');
    expect(names('WEIGHT', 'Rivets').every((name) => name.startsWith('RIVET'))).toBe(true);
    expect(names('zzz')).toEqual([]);
    expect(names('  ')).toHaveLength(INSERTABLE.length);
  });

  it('fold away optional fields where there are many', () => {
    const folded = (name: string): string[] =>
      foldedFields(INSERTABLE.find((one) => one.name === name)!).more.map((one) => one.name);
    expect(folded('RIVET.COUNT')).toEqual(['edge', 'rows', 'staggered']);
    expect(folded('AREA.HOLES')).toEqual([]);
  });
});
