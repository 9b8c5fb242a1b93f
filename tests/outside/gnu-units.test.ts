/** GNU units (the Debian package `units`): every conversion constant, the gauges, the drills. */
import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { rivetDrill, rivet, SOLID_SIZES } from '../../src/core/fastener';
import { BLIND_SIZES, DRILLS } from '../../src/core/fastener/sizes';
import { gaugeThickness, LB_IN3_PER_G_CM3, LB_IN3_PER_KG_M3, LB_IN3_PER_LB_FT3 } from '../../src/core/material';
import { THICKEST_GAUGE, THINNEST_GAUGE } from '../../src/core/material/gauges';
import { DIMENSIONS, type Dimension } from '../../src/functions';
import { gnuUnits } from '../helpers/programs';

const present = gnuUnits() !== undefined;

function units(have: string, want: string): number {
  const { stdout, status } = spawnSync('units', ['-t', '-o', '%.15g', have, want], { encoding: 'utf8' });
  expect(status, stdout).toBe(0);
  return Number(stdout.trim());
}

/** What one inch-pound unit of each dimension is called there, and the unit that "mm-kg" has for it. */
const NAMES: Readonly<Record<Dimension, readonly [have: string, want: string]>> = {
  length: ['in', 'mm'],
  area: ['in^2', 'mm^2'],
  volume: ['in^3', 'mm^3'],
  weight: ['lb', 'kg'],
  moment: ['lb in', 'kg mm'],
  inertia: ['lb in^2', 'kg mm^2'],
  density: ['lb/in^3', 'g/cm^3'],
  perArea: ['lb/ft^2', 'kg/m^2'],
  perWeight: ['1/lb', '1/kg'],
  force: ['lbf', 'N'],
};

const close = (got: number, wanted: number): void => expect(Math.abs(got / wanted - 1)).toBeLessThan(1e-12);

describe.runIf(present)('GNU units', () => {
  it('knows every dimension that there is', () =>
    expect(Object.keys(NAMES).sort()).toEqual(Object.keys(DIMENSIONS).sort()));

  it.each(Object.entries(DIMENSIONS).map(([dimension, { factor }]) => [dimension as Dimension, factor] as const))(
    '%s: %s',
    (dimension, factor) => close(factor, units(...NAMES[dimension])),
  );

  it.each([
    ['g/cm^3', LB_IN3_PER_G_CM3],
    ['kg/m^3', LB_IN3_PER_KG_M3],
    ['lb/ft^3', LB_IN3_PER_LB_FT3],
  ])('lb/in³ in one %s', (unit, factor) => close(factor, units(unit, 'lb/in^3')));

  it(`gauges ${THICKEST_GAUGE} (4/0) to ${THINNEST_GAUGE}: its wiregauge, rounded as ASTM B258 prints`, () => {
    for (let n = THICKEST_GAUGE; n <= THINNEST_GAUGE; n++)
      expect(Math.abs(gaugeThickness(n) - units(`wiregauge(${n})`, 'in')), `gauge ${n}`).toBeLessThanOrEqual(
        0.00005 + 1e-9,
      );
  });

  const drills = [...new Set([...SOLID_SIZES, ...BLIND_SIZES].map(({ drill }) => drill))];
  it.each(drills.filter((drill) => drill.startsWith('#')))('drill %s', (drill) =>
    close(DRILLS[drill], units(`drillgauge(${drill.slice(1)})`, 'in')),
  );

  it('the drill of a 1/4 rivet is letter F', () => expect(rivetDrill(rivet('MS20470AD8-8'))).toBe('F'));
});
