/**
 * A plan as a drawing in DXF, release 12 in ASCII, which every drawing program reads: one outline a
 * pattern, side by side, with layers for stock, strips, parts, leftovers and texts. Source of the group
 * codes: Autodesk's DXF reference (POLYLINE, VERTEX), whose older form, "entities
 * follow" and all, is release 12's; checked by reading it back.
 */
import { drawnPattern, lengthText, type CuttingPlan, type Rectangle } from './plan';

const LAYERS = [
  ['STOCK', 7],
  ['STRIPS', 8],
  ['PARTS', 3],
  ['LEFTOVERS', 1],
  ['TEXT', 7],
] as const;

/** Bars have no width of their own here: they are drawn this part of their length high. */
const BAR_HEIGHT = 1 / 48;
/** Of a text to its height, about. */
const LETTER_WIDTH = 0.8;

export function planDxf(plan: CuttingPlan): string {
  const entities: string[] = [];
  let x = 0;
  plan.patterns.forEach((pattern, index) => {
    const { length, stock, times } = pattern;
    const { width, strips, pieces, leftovers } = drawnPattern(pattern, BAR_HEIGHT);
    const shift = (place: Rectangle): Rectangle => ({ ...place, x: place.x + x });
    const sheet = shift({ x: 0, y: 0, length, width });
    const letter = Math.min(length, width * 4) / 40;
    entities.push(
      outline('STOCK', sheet),
      label(
        `${index + 1}: ${stock}, ${lengthText(length)}${'strips' in pattern ? ` x ${lengthText(width)}` : ''}, ${times} off`,
        x,
        width + letter,
        letter,
      ),
      ...strips.map((strip) => outline('STRIPS', shift(strip))),
      ...pieces.flatMap((piece) => part(piece.part, shift(piece))),
      ...leftovers.map((rest) => outline('LEFTOVERS', shift(rest))),
    );
    x += length * 1.1;
  });
  return [
    codes([0, 'SECTION'], [2, 'HEADER'], [9, '$ACADVER'], [1, 'AC1009'], [0, 'ENDSEC']),
    codes([0, 'SECTION'], [2, 'TABLES']),
    codes(
      [0, 'TABLE'],
      [2, 'LTYPE'],
      [70, 1],
      [0, 'LTYPE'],
      [2, 'CONTINUOUS'],
      [70, 0],
      [3, 'Solid line'],
      [72, 65],
      [73, 0],
      [40, 0],
      [0, 'ENDTAB'],
    ),
    codes([0, 'TABLE'], [2, 'LAYER'], [70, LAYERS.length]),
    ...LAYERS.map(([name, colour]) => codes([0, 'LAYER'], [2, name], [70, 0], [62, colour], [6, 'CONTINUOUS'])),
    codes([0, 'ENDTAB'], [0, 'ENDSEC'], [0, 'SECTION'], [2, 'ENTITIES']),
    ...entities,
    codes([0, 'ENDSEC'], [0, 'EOF']),
  ].join('');
}

type Code = readonly [number, string | number];

/** Group codes, each on a line of its own above its value. */
const codes = (...list: readonly Code[]): string =>
  list
    .map(
      ([code, value]) =>
        `${String(code).padStart(3)}\r\n${typeof value === 'number' && code >= 10 && code < 60 ? coordinate(value) : value}\r\n`,
    )
    .join('');

const coordinate = (value: number): string => {
  const text = String(Number(value.toFixed(6)));
  return text.includes('.') ? text : `${text}.0`;
};

function outline(layer: (typeof LAYERS)[number][0], { x, y, length, width }: Rectangle): string {
  const corners: readonly (readonly [number, number])[] = [
    [x, y],
    [x + length, y],
    [x + length, y + width],
    [x, y + width],
  ];
  return [
    codes([0, 'POLYLINE'], [8, layer], [66, 1], [10, 0], [20, 0], [30, 0], [70, 1]),
    ...corners.map(([cx, cy]) => codes([0, 'VERTEX'], [8, layer], [10, cx], [20, cy], [30, 0])),
    codes([0, 'SEQEND'], [8, layer]),
  ].join('');
}

function part(name: string, place: Rectangle): string[] {
  const size = `${lengthText(place.length)} x ${lengthText(place.width)}`;
  const letters = Math.max(name.length, size.length, 1);
  const upright = place.width > place.length;
  const [run, rise] = upright ? [place.width, place.length] : [place.length, place.width];
  const height = Math.min(rise / 3, run / (letters * LETTER_WIDTH));
  const [tx, ty] = upright
    ? [place.x + rise * 0.6, place.y + height * 0.4]
    : [place.x + height * 0.4, place.y + rise * 0.4];
  return [outline('PARTS', place), label(name, tx, ty, height, upright ? 90 : 0)];
}

const label = (text: string, x: number, y: number, height: number, angle = 0): string =>
  codes([0, 'TEXT'], [8, 'TEXT'], [10, x], [20, y], [30, 0], [40, height], [1, ascii(text)], [50, angle]);

/** Text as release 12 takes it: characters beyond ASCII by their code, line ends as spaces. */
const ascii = (text: string): string =>
  [...text.replace(/[\r\n\t]+/g, ' ')]
    .map((letter) =>
      letter.charCodeAt(0) < 127 ? letter : `\\U+${letter.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`,
    )
    .join('');
