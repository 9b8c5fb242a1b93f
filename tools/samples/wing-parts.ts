/** The parts of the sample half wing. Invented: shapes, gauges, sizes and counts stand for nobody's airplane. */
import type { Cell } from '../../src/sheet';
import {
  atChord,
  bar,
  circle,
  cell,
  ellipse,
  flatAngle,
  flatChannel,
  flatZee,
  minus,
  plus,
  rect,
  section,
  slot,
  times,
  trapezoid,
  triangle,
  tube,
  type Term,
} from './expression';
import { f, type Content } from './book';

export interface Part {
  readonly component: string;
  readonly part: string;
  readonly quantity: number;
  readonly material?: string;
  readonly thickness?: Content;
  readonly area?: Content;
  readonly each?: Content;
  readonly weighed?: number;
  readonly arm: Content;
  readonly status: string;
  /** Price item; for sheet it follows from material and thickness. */
  readonly item?: Cell;
  /** What one piece takes of the item; for sheet it is the flat area. */
  readonly use?: Term;
}

const R = 'BendRadius';
/** Arm of a point at a fraction of the chord. */
const at = (fraction: Term): Content => cell(atChord(fraction));
const gauge = (name: string): Content => f(name, `=${name}`);

interface Extra {
  readonly status?: string;
  readonly weighed?: number;
}

const sheet = (
  component: string,
  part: string,
  quantity: number,
  thickness: Content,
  area: Term,
  arm: Content,
  extra: Extra & { material?: string } = {},
): Part => ({
  component,
  part,
  quantity,
  material: extra.material ?? '6061-T6',
  thickness,
  area: cell(area),
  arm,
  status: extra.status ?? 'laid out',
  ...(extra.weighed === undefined ? {} : { weighed: extra.weighed }),
});

const piece = (
  component: string,
  part: string,
  quantity: number,
  each: Term,
  arm: Content,
  extra: Extra & { item?: string; use?: Term } = {},
): Part => ({
  component,
  part,
  quantity,
  each: typeof each === 'number' ? each : cell(each),
  arm,
  status: extra.status ?? 'estimated',
  ...(extra.item === undefined ? {} : { item: extra.item, use: extra.use ?? 1 }),
  ...(extra.weighed === undefined ? {} : { weighed: extra.weighed }),
});

const web = times; // reads as "length times developed width"

const frontSpar: Part[] = [
  sheet(
    'Front spar',
    'Web, with 8 lightening holes',
    1,
    gauge('WebGauge'),
    minus(rect('HalfSpan', minus('FrontDepth', 0.1)), times(8, circle(2.5))),
    at('FrontSpar'),
    { status: 'released' },
  ),
  sheet('Front spar', 'Upper cap angles', 2, 0.05, web('HalfSpan', flatAngle(1.125, 1, 0.05, 0.125)), at('FrontSpar'), {
    status: 'released',
  }),
  sheet('Front spar', 'Lower cap angles', 2, 0.05, web('HalfSpan', flatAngle(1, 1, 0.05, 0.125)), at('FrontSpar'), {
    status: 'released',
  }),
  sheet('Front spar', 'Cap straps, inboard', 4, 0.05, trapezoid(0.875, 0.5, 84), at('FrontSpar')),
  sheet('Front spar', 'Root web doubler', 1, 0.04, rect(22, minus('FrontDepth', 2.2)), at('FrontSpar')),
  sheet(
    'Front spar',
    'Web uprights',
    14,
    0.025,
    web(minus('FrontDepth', 0.2), flatAngle(0.625, 0.625, 0.025, R)),
    at('FrontSpar'),
  ),
  sheet('Front spar', 'Lift strut doubler', 2, 0.05, rect(9, 5.5), at('FrontSpar')),
];

const rearSpar: Part[] = [
  sheet(
    'Rear spar',
    'Channel',
    1,
    0.032,
    web('HalfSpan', flatChannel('RearDepth', 0.75, 0.75, 0.032, 0.125)),
    at('RearSpar'),
    { status: 'weighed', weighed: 3.25 },
  ),
  sheet('Rear spar', 'Root doubler', 1, 0.04, rect(16, minus('RearDepth', 0.4)), at('RearSpar')),
  sheet(
    'Rear spar',
    'Web uprights',
    9,
    0.02,
    web(minus('RearDepth', 0.3), flatAngle(0.5, 0.5, 0.02, R)),
    at('RearSpar'),
  ),
  sheet('Rear spar', 'Hinge brackets', 6, 0.05, web(3.2, flatAngle(1.25, 1, 0.05, 0.125)), at(plus('RearSpar', 0.02))),
  sheet('Rear spar', 'Strut carry-through angle', 1, 0.063, web(14, flatAngle(1, 1, 0.063, 0.16)), at('RearSpar')),
];

const ribs: Part[] = [
  sheet(
    'Ribs',
    'Nose ribs',
    13,
    gauge('RibGauge'),
    plus(minus('NoseArea', circle(2)), times('NoseGirth', 0.55)),
    at('0.15'),
    { status: 'released' },
  ),
  sheet(
    'Ribs',
    'Main ribs',
    11,
    gauge('RibGauge'),
    plus(minus('MidArea', times(3, circle(3))), times(plus('UpperGirth', 'LowerGirth'), 0.55)),
    at('0.45'),
    { status: 'weighed', weighed: 3.49 },
  ),
  sheet('Ribs', 'Root rib', 1, 0.032, plus('MidArea', times(plus('UpperGirth', 'LowerGirth'), 0.6)), at('0.46')),
  sheet(
    'Ribs',
    'Tip rib',
    1,
    0.025,
    plus('MidArea', 'AftArea', times(plus('UpperGirth', 'LowerGirth', 'AftGirth'), 0.55)),
    at('0.55'),
  ),
  sheet('Ribs', 'Front spar clips', 26, 0.025, web(3.4, flatAngle(0.75, 0.75, 0.025, R)), at('FrontSpar')),
  sheet('Ribs', 'Rear spar clips', 24, 0.025, web(2.2, flatAngle(0.75, 0.75, 0.025, R)), at('RearSpar')),
  sheet(
    'Ribs',
    'Braces, channel from offcuts',
    22,
    0.016,
    web(5.4, flatChannel(0.5, 0.375, 0.375, 0.016, R)),
    at('0.47'),
  ),
  sheet('Ribs', 'Root rib stiffening angle', 2, 0.032, web(20, flatAngle(0.75, 0.5, 0.032, 0.125)), at('0.46')),
];

const noseSkin: Part[] = [
  sheet(
    'Nose skin',
    'Panels, three to the span',
    3,
    gauge('NoseGauge'),
    rect(plus('NoseGirth', 1.5), 52.75),
    at('0.12'),
    { status: 'released' },
  ),
  sheet('Nose skin', 'Lap straps', 2, gauge('NoseGauge'), rect('NoseGirth', 1.5), at('0.12')),
  sheet('Nose skin', 'Stall strip', 1, 0.025, web(14, flatAngle(0.5, 0.5, 0.025, R)), at('0')),
  sheet('Nose skin', 'Light opening doubler', 1, 0.032, minus(ellipse(11, 7), ellipse(8, 4.5)), at('0.03')),
];

const mainSkin: Part[] = [
  sheet('Main skins', 'Upper panels', 3, gauge('MainGauge'), rect(plus('UpperGirth', 1.25), 52.75), at('0.475'), {
    status: 'released',
  }),
  sheet(
    'Main skins',
    'Lower panels',
    3,
    gauge('MainGauge'),
    minus(rect(plus('LowerGirth', 1.25), 52.75), times(2, circle(5))),
    at('0.475'),
    { status: 'released' },
  ),
  sheet('Main skins', 'Inspection rings', 6, 0.032, minus(circle(7), circle(5)), at('0.5')),
  sheet('Main skins', 'Inspection covers', 6, 0.025, circle(6.4), at('0.5')),
  sheet('Main skins', 'Walkway doubler', 1, 0.025, trapezoid(20, 17, 15), at('0.42')),
  sheet('Main skins', 'Panel lap straps', 4, gauge('MainGauge'), rect(plus('UpperGirth', 0.5), 1.25), at('0.475')),
  sheet('Main skins', 'Drain patches', 8, gauge('MainGauge'), slot(2.5, 1), at('0.66')),
];

const stringers: Part[] = [
  sheet('Stringers', 'Upper zees', 3, 0.02, web('HalfSpan', flatZee(0.75, 0.5, 0.5, 0.02, R)), at('0.47')),
  sheet('Stringers', 'Lower zees', 2, 0.02, web('HalfSpan', flatZee(0.625, 0.5, 0.5, 0.02, R)), at('0.47')),
  sheet('Stringers', 'Rib clips', 60, 0.02, web(1.1, flatAngle(0.5, 0.5, 0.02, R)), at('0.47')),
  sheet('Stringers', 'Splice channels', 5, 0.025, web(5, flatChannel(0.8, 0.4, 0.4, 0.025, R)), at('0.47')),
];

const tip: Part[] = [
  sheet('Tip', 'Upper cap', 1, 0.025, trapezoid('Chord', 38, 7.5), at('0.44')),
  sheet('Tip', 'Lower cap', 1, 0.025, trapezoid('Chord', 40, 6), at('0.44')),
  sheet('Tip', 'Closing strips', 2, 0.02, rect(48, 1.25), at('0.45')),
  sheet('Tip', 'Gussets', 4, 0.032, triangle(3, 2.5), at('0.5')),
  piece('Tip', 'Bow, bent tube', 1, tube(0.5, 0.035, 58, '6061-T6'), at('0.46'), { item: 'Tube 1/2 x .035', use: 58 }),
  piece('Tip', 'Position light and bracket', 1, 0.31, at('0.1')),
];

const aileron: Part[] = [
  sheet('Aileron', 'Skin', 1, 0.016, rect(plus('AftGirth', 1), 70), at('0.82'), { status: 'released' }),
  sheet('Aileron', 'Spar', 1, 0.025, web(70, flatChannel(minus('RearDepth', 0.5), 0.625, 0.625, 0.025, R)), at('0.71')),
  sheet('Aileron', 'Ribs', 6, 0.02, plus('AftArea', times('AftGirth', 0.5)), at('0.8')),
  sheet('Aileron', 'End ribs', 2, 0.025, plus('AftArea', times('AftGirth', 0.55)), at('0.8')),
  sheet('Aileron', 'Horn', 1, 0.08, trapezoid(4.5, 1.5, 4), at('0.7')),
  piece('Aileron', 'Counterweight rod', 1, bar(0.625, 32, '4130'), at('0.665'), { item: 'Rod 5/8 4130', use: 32 }),
  piece('Aileron', 'Hinge', 1, section(0.115, 70, '6061-T6'), at('0.69'), { item: 'Hinge 1-1/4 wide', use: 70 }),
  sheet('Aileron', 'Trailing edge strip', 1, 0.02, web(70, flatAngle(0.5, 0.5, 0.02, R)), at('0.985')),
];

const flap: Part[] = [
  sheet('Flap', 'Skin', 1, 0.02, rect(plus('AftGirth', 1), 80), at('0.82')),
  sheet(
    'Flap',
    'Spar',
    1,
    0.032,
    web(80, flatChannel(minus('RearDepth', 0.5), 0.625, 0.625, 0.032, 0.125)),
    at('0.71'),
  ),
  sheet('Flap', 'Ribs', 7, 0.02, plus('AftArea', times('AftGirth', 0.5)), at('0.8')),
  sheet('Flap', 'End ribs', 2, 0.025, plus('AftArea', times('AftGirth', 0.55)), at('0.8')),
  sheet('Flap', 'Horn', 1, 0.08, trapezoid(5, 1.5, 4.5), at('0.7')),
  piece('Flap', 'Hinge', 1, section(0.115, 80, '6061-T6'), at('0.69'), { item: 'Hinge 1-1/4 wide', use: 80 }),
  piece('Flap', 'Push rod', 1, tube(0.75, 0.049, 26, '6061-T6'), at('0.6'), { item: 'Tube 3/4 x .049', use: 26 }),
  piece('Flap', 'Rod ends', 2, 0.075, at('0.6'), { item: 'Rod end 1/4', status: 'weighed', weighed: 0.152 }),
];

const fittings: Part[] = [
  sheet(
    'Fittings',
    'Front root plates',
    4,
    0.125,
    minus(rect(6.5, 2.5), plus(times(5, circle(0.312)), circle(0.5))),
    at('FrontSpar'),
    { material: '4130' },
  ),
  sheet(
    'Fittings',
    'Rear root plates',
    2,
    0.125,
    minus(rect(4, 2), plus(times(3, circle(0.25)), circle(0.375))),
    at('RearSpar'),
    { material: '4130' },
  ),
  sheet(
    'Fittings',
    'Strut fitting, front',
    2,
    0.125,
    minus(trapezoid(4, 2, 5), times(4, circle(0.312))),
    at('FrontSpar'),
    { material: '4130' },
  ),
  sheet(
    'Fittings',
    'Strut fitting, rear',
    2,
    0.09,
    minus(trapezoid(3.5, 1.5, 4), times(4, circle(0.25))),
    at('RearSpar'),
    { material: '4130' },
  ),
  sheet('Fittings', 'Bellcrank plates', 2, 0.08, triangle(7, 5), at('0.58')),
  piece('Fittings', 'Push rod, aileron', 1, tube(0.75, 0.049, 72, '6061-T6'), at('0.6'), {
    item: 'Tube 3/4 x .049',
    use: 72,
  }),
  piece('Fittings', 'Rod ends', 2, 0.075, at('0.6'), { item: 'Rod end 1/4' }),
  piece('Fittings', 'Bellcrank bearing and pivot', 1, 0.22, at('0.58'), { item: 'Bearing, bellcrank' }),
  piece('Fittings', 'Pitot tube and line', 1, 0.35, at('0.1')),
  piece('Fittings', 'Wiring allowance', 1, 0.6, at('0.3')),
];

export const COMPONENTS = [
  'Front spar',
  'Rear spar',
  'Ribs',
  'Nose skin',
  'Main skins',
  'Stringers',
  'Tip',
  'Aileron',
  'Flap',
  'Fittings',
] as const;

/** Design weights, lb. */
export const BUDGETS: Readonly<Record<(typeof COMPONENTS)[number], number>> = {
  'Front spar': 14.5,
  'Rear spar': 5.2,
  Ribs: 9,
  'Nose skin': 11.5,
  'Main skins': 14.5,
  Stringers: 3.4,
  Tip: 3,
  Aileron: 11,
  Flap: 11.5,
  Fittings: 9,
};

export const PARTS_OF_WING: readonly Part[] = [
  ...frontSpar,
  ...rearSpar,
  ...ribs,
  ...noseSkin,
  ...mainSkin,
  ...stringers,
  ...tip,
  ...aileron,
  ...flap,
  ...fittings,
];
