/** The rivet joints of the sample half wing. Invented, as the parts are. */

export interface Joint {
  readonly joint: string;
  readonly component: string;
  /** Thicknesses in the joint, inches: numbers or names of the Design sheet. */
  readonly sheets: readonly (number | string)[];
  readonly style: 'universal' | 'flush' | 'blind';
  readonly diameter: number;
  readonly run: number | string;
  readonly pitch: number;
  readonly edge: number;
  readonly rows: number;
  readonly repeats: number;
  /** Fraction of the chord. */
  readonly at: number | string;
}

const S = 3 / 32;
const E = 1 / 8;
const F = 5 / 32;

const joint = (
  name: string,
  component: string,
  sheets: readonly (number | string)[],
  style: Joint['style'],
  diameter: number,
  run: number | string,
  pitch: number,
  [edge, rows, repeats]: readonly [number, number, number],
  at: number | string,
): Joint => ({ joint: name, component, sheets, style, diameter, run, pitch, edge, rows, repeats, at });

export const JOINTS_OF_WING: readonly Joint[] = [
  joint(
    'Upper caps to web',
    'Front spar',
    [0.05, 'WebGauge', 0.05],
    'universal',
    F,
    'HalfSpan',
    1,
    [0.375, 1, 1],
    'FrontSpar',
  ),
  joint(
    'Lower caps to web',
    'Front spar',
    [0.05, 'WebGauge', 0.05],
    'universal',
    F,
    'HalfSpan',
    1,
    [0.375, 1, 1],
    'FrontSpar',
  ),
  joint('Cap straps to caps', 'Front spar', [0.05, 0.05], 'universal', F, 84, 1, [0.375, 1, 4], 'FrontSpar'),
  joint('Root doubler to web', 'Front spar', ['WebGauge', 0.04], 'universal', E, 22, 1, [0.375, 2, 2], 'FrontSpar'),
  joint('Uprights to web', 'Front spar', ['WebGauge', 0.025], 'universal', S, 5.5, 0.8, [0.3, 1, 14], 'FrontSpar'),
  joint('Root doubler', 'Rear spar', [0.032, 0.04], 'universal', E, 16, 1, [0.375, 2, 1], 'RearSpar'),
  joint('Uprights', 'Rear spar', [0.032, 0.02], 'universal', S, 4, 0.8, [0.25, 1, 9], 'RearSpar'),
  joint('Hinge brackets', 'Rear spar', [0.032, 0.05], 'universal', F, 3.2, 0.8, [0.4, 2, 6], 'RearSpar'),
  joint('Front clips to spar', 'Ribs', ['WebGauge', 0.025], 'universal', S, 3.4, 0.75, [0.25, 1, 26], 'FrontSpar'),
  joint('Front clips to ribs', 'Ribs', ['RibGauge', 0.025], 'universal', S, 3.4, 0.75, [0.25, 1, 26], 'FrontSpar'),
  joint('Rear clips to spar', 'Ribs', [0.032, 0.025], 'universal', S, 2.2, 0.6, [0.25, 1, 24], 'RearSpar'),
  joint('Rear clips to ribs', 'Ribs', ['RibGauge', 0.025], 'universal', S, 2.2, 0.6, [0.25, 1, 24], 'RearSpar'),
  joint('Braces to ribs', 'Ribs', ['RibGauge', 0.016], 'universal', S, 1.1, 0.5, [0.25, 1, 44], 0.47),
  joint(
    'Nose skin to nose ribs',
    'Nose skin',
    ['NoseGauge', 'RibGauge'],
    'flush',
    S,
    'NoseGirth',
    1,
    [0.35, 1, 13],
    0.12,
  ),
  joint(
    'Nose skin to front spar',
    'Nose skin',
    ['NoseGauge', 0.05],
    'flush',
    E,
    'HalfSpan',
    1,
    [0.5, 1, 2],
    'FrontSpar',
  ),
  joint(
    'Nose skin laps',
    'Nose skin',
    ['NoseGauge', 'NoseGauge', 'NoseGauge'],
    'flush',
    S,
    'NoseGirth',
    1,
    [0.35, 2, 2],
    0.12,
  ),
  joint(
    'Upper skin to ribs',
    'Main skins',
    ['MainGauge', 'RibGauge'],
    'universal',
    S,
    'UpperGirth',
    1,
    [0.35, 1, 13],
    0.475,
  ),
  joint(
    'Lower skin to ribs',
    'Main skins',
    ['MainGauge', 'RibGauge'],
    'blind',
    E,
    'LowerGirth',
    1.25,
    [0.5, 1, 13],
    0.475,
  ),
  joint('Upper skin to spars', 'Main skins', ['MainGauge', 0.032], 'universal', S, 'HalfSpan', 1, [0.35, 1, 2], 0.475),
  joint('Lower skin to spars', 'Main skins', ['MainGauge', 0.032], 'blind', E, 'HalfSpan', 1.25, [0.5, 1, 2], 0.475),
  joint(
    'Upper stringers to skin',
    'Stringers',
    ['MainGauge', 0.02],
    'universal',
    S,
    'HalfSpan',
    1.1,
    [0.35, 1, 3],
    0.47,
  ),
  joint('Lower stringers to skin', 'Stringers', ['MainGauge', 0.02], 'blind', E, 'HalfSpan', 1.5, [0.5, 1, 2], 0.47),
  joint('Tip caps', 'Tip', [0.025, 0.025], 'blind', E, 50, 1.25, [0.5, 1, 2], 0.45),
  joint('Aileron skin to ribs', 'Aileron', [0.016, 0.02], 'blind', E, 'AftGirth', 1.25, [0.5, 1, 8], 0.82),
  joint('Aileron skin to spar', 'Aileron', [0.016, 0.025], 'universal', S, 70, 1, [0.35, 1, 2], 0.71),
  joint('Aileron hinge', 'Aileron', [0.025, 0.04], 'universal', E, 70, 1.4, [0.5, 1, 2], 0.69),
  joint('Flap skin to ribs', 'Flap', [0.02, 0.02], 'blind', E, 'AftGirth', 1.25, [0.5, 1, 9], 0.82),
  joint('Flap skin to spar', 'Flap', [0.02, 0.032], 'universal', S, 80, 1, [0.35, 1, 2], 0.71),
  joint('Flap hinge', 'Flap', [0.032, 0.04], 'universal', E, 80, 1.4, [0.5, 1, 2], 0.69),
];
