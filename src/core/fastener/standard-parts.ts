/**
 * Bolts, nuts and washers of open metric standards, weighed from their dimensions: hexagon bolts ISO 4014, hexagon
 * screws threaded to the head ISO 4017, hexagon nuts ISO 4032 and plain washers ISO 7089. Everything else is weighed,
 * or copied from its document.
 *
 * The model. A head or a nut is a hexagonal prism, its chamfers left out (a per cent or two). A thread is a cylinder of
 * its pitch diameter, inside and outside, as the appendices of GOST 22042-76 and GOST 5915-70 reckon their masses.
 */
import { InputError, refuse, refuseUnlisted } from '../input-error';

type Standard = '4014' | '4017' | '4032' | '7089';

export interface StandardPart {
  /** In one spelling: "ISO 4017 M6x20". */
  readonly designation: string;
  readonly what: string;
  /** in³ */
  readonly volume: number;
}

interface Size {
  readonly diameter: number;
  readonly pitch: number;
  /** Width across flats of head and nut. */
  readonly flats: number;
  /** Height of the bolt's head. */
  readonly head: number;
  /** Greatest height of the nut. */
  readonly nut: number;
  readonly washer: { readonly hole: number; readonly outside: number; readonly thickness: number };
}

const size = (
  diameter: number,
  pitch: number,
  [flats, head, nut]: readonly [number, number, number],
  [hole, outside, thickness]: readonly [number, number, number],
): Size => ({ diameter, pitch, flats, head, nut, washer: { hole, outside, thickness } });

/**
 * Millimetres. ISO 4014, ISO 4017 (across flats, head), ISO 4032 (height of the nut), ISO 7089 (washer), each in a copy or
 * a published list. Pitches of the coarse series ISO 261.
 */
const SIZES: readonly Size[] = [
  size(3, 0.5, [5.5, 2, 2.4], [3.2, 7, 0.5]),
  size(4, 0.7, [7, 2.8, 3.2], [4.3, 9, 0.8]),
  size(5, 0.8, [8, 3.5, 4.7], [5.3, 10, 1]),
  size(6, 1, [10, 4, 5.2], [6.4, 12, 1.6]),
  size(8, 1.25, [13, 5.3, 6.8], [8.4, 16, 1.6]),
  size(10, 1.5, [16, 6.4, 8.4], [10.5, 20, 2]),
  size(12, 1.75, [18, 7.5, 10.8], [13, 24, 2.5]),
];

const WHAT: Readonly<Record<Standard, string>> = {
  '4014': 'hexagon bolt',
  '4017': 'hexagon screw, threaded to the head',
  '4032': 'hexagon nut',
  '7089': 'plain washer',
};

const MM3_PER_IN3 = 25.4 ** 3;
const LONGEST = 200;
const TAKES = '"ISO 4014 M6x40", "ISO 4017 M6x20", "ISO 4032 M6" or "ISO 7089 M6", from M3 to M12';

const circle = (diameter: number): number => (Math.PI / 4) * diameter ** 2;
/** Area of a hexagon by its width across flats: √3/2 × s². */
const hexagon = (flats: number): number => (Math.sqrt(3) / 2) * flats ** 2;

/** Pitch diameter of a metric thread, ISO 724: d − 0.6495 P. @internal */
export const pitchDiameter = (diameter: number, pitch: number): number => diameter - 0.649519 * pitch;

/** mm³ of a nut. @internal */
export const nutVolume = (diameter: number, pitch: number, flats: number, height: number): number =>
  (hexagon(flats) - circle(pitchDiameter(diameter, pitch))) * height;

/** Length that is threaded, ISO 4014 for bolts up to 125 mm and beyond: 2 d + 6, 2 d + 12 mm. */
const threaded = (diameter: number, length: number): number => 2 * diameter + (length <= 125 ? 6 : 12);

function volumeOf(standard: Standard, { diameter, pitch, flats, head, nut, washer }: Size, length: number): number {
  if (standard === '7089') return (circle(washer.outside) - circle(washer.hole)) * washer.thickness;
  if (standard === '4032') return nutVolume(diameter, pitch, flats, nut);
  const thread = standard === '4017' ? length : Math.min(length, threaded(diameter, length));
  return hexagon(flats) * head + circle(pitchDiameter(diameter, pitch)) * thread + circle(diameter) * (length - thread);
}

const WRITTEN =
  /^(?:DIN\s*)?(?:EN\s*)?ISO\s*[-–]?\s*(4014|4017|4032|7089)\s*[-–,]?\s*M?\s*(\d+(?:\.\d+)?)(?:\s*[x×*]\s*(\d+(?:\.\d+)?))?(?:\s*[-–,]?\s*(?:4\.6|5\.6|8\.8|10\.9|12\.9|8|10|12|200\s*HV|300\s*HV))?$/i;

/**
 * The bolt, nut or washer of a designation; a property class behind it is read and changes nothing.
 * @throws InputError for what is not of the form, NotListedError for a size that is not in the tables
 */
export function standardPart(text: string, parameter = 'part'): StandardPart {
  const match =
    WRITTEN.exec(text.trim()) ??
    refuse(parameter, text, TAKES, 'Everything else: type its weight, and where it is from');
  const standard = match[1] as Standard;
  const found =
    SIZES.find(({ diameter }) => diameter === Number(match[2])) ??
    refuseUnlisted(parameter, text, `a size of ${SIZES.map(({ diameter }) => `M${diameter}`).join(', ')}`);
  const isBolt = standard === '4014' || standard === '4017';
  const length = Number(match[3] ?? 0);
  if (isBolt && !(length > 0 && length <= LONGEST))
    throw new InputError(parameter, text, `the length behind the size, up to ${LONGEST} mm: ISO ${standard} M6x20`);
  if (!isBolt && match[3] !== undefined)
    throw new InputError(parameter, text, `a ${WHAT[standard]} without a length: ISO ${standard} M${found.diameter}`);
  return {
    designation: `ISO ${standard} M${found.diameter}${isBolt ? `x${length}` : ''}`,
    what: WHAT[standard],
    volume: volumeOf(standard, found, length) / MM3_PER_IN3,
  };
}
