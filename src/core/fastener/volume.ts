/**
 * Volumes of rivets, in³, from simple solids.
 *
 * The models. A universal head is a spherical cap of the head's diameter and height (the real one is a
 * little flatter on top and fuller at the rim). A flush head is the frustum of its 100° cone. A blind
 * rivet's body is a tube whose bore is the mandrel's nominal diameter and whose outside is the middle of
 * its limits; its head is a spherical cap with the same bore; its mandrel is a wire, ending on the blind side
 * in a head that is a frustum from the mandrel's diameter to the body's least, as long as IFI-114 lets it
 * stand out of the body. IFI-114 defines that the mandrel breaks at or near its junction with that head:
 * so the head stays in a rivet that has been set, and the wire goes. Where the stem is retained, the wire that lies
 * in the body and its head stays as well: what stands out of the head is trimmed off.
 */
import { BLIND_SIZES, type BlindSize } from './blind-data';
import type { BlindRivet, SolidRivet, SolidStyle } from './rivet';
import { FLUSH_HEAD_ANGLE, SOLID_SIZES, UNIVERSAL_HEAD, type SolidSize } from './solid-data';

export const cylinder = (diameter: number, length: number): number => ((Math.PI * diameter ** 2) / 4) * length;

/** Cap of a sphere from its base diameter and height. @internal */
export const sphericalCap = (diameter: number, height: number): number =>
  ((Math.PI * height) / 6) * (3 * (diameter / 2) ** 2 + height ** 2);

const frustum = (from: number, to: number, length: number): number =>
  ((Math.PI * length) / 12) * (from ** 2 + from * to + to ** 2);

/** A spherical cap with a bore along its axis. @internal */
export function boredCap(diameter: number, height: number, bore: number): number {
  const a = diameter / 2;
  const b = bore / 2;
  const radius = (a ** 2 + height ** 2) / (2 * height);
  const shell = ((2 * Math.PI) / 3) * ((radius ** 2 - b ** 2) ** 1.5 - (radius ** 2 - a ** 2) ** 1.5);
  return shell - Math.PI * (radius - height) * (a ** 2 - b ** 2);
}

export function solidSize(dash: number): SolidSize {
  return SOLID_SIZES.find((size) => size.dash === dash)!;
}

export function blindSize(dash: number): BlindSize {
  return BLIND_SIZES.find((size) => size.dash === dash)!;
}

/** Height of a flush head: (A − D) / (2 tan 50°). @internal */
export function flushHeadHeight(size: Pick<SolidSize, 'flushHead' | 'shank'>): number {
  return (size.flushHead - size.shank) / (2 * Math.tan(((FLUSH_HEAD_ANGLE / 2) * Math.PI) / 180));
}

/** Volume of a solid rivet; driving it moves metal and takes none away. */
export function solidVolume({ dash, style, length }: Pick<SolidRivet, 'dash' | 'style' | 'length'>): number {
  const { shank, flushHead } = solidSize(dash);
  return shapeVolume(style, shank, style === 'flush' ? flushHead : UNIVERSAL_HEAD.diameter * shank, length);
}

/** The same by shank and head; a universal head is as high as its diameter asks for. */
export function shapeVolume(style: SolidStyle, shank: number, head: number, length: number): number {
  if (style === 'universal')
    return sphericalCap(head, (UNIVERSAL_HEAD.height / UNIVERSAL_HEAD.diameter) * head) + cylinder(shank, length);
  const height = flushHeadHeight({ flushHead: head, shank });
  return frustum(head, shank, height) + cylinder(shank, length - height);
}

/** Volumes of the three parts of a blind rivet. */
export interface BlindVolumes {
  /** Body and domed head, with the bore. */
  readonly body: number;
  /** Mandrel head, which stays. */
  readonly mandrelHead: number;
  /** Mandrel wire, as it comes. */
  readonly stem: number;
  /** The part of the wire that stays in the rivet after it is set. */
  readonly stemKept: number;
}

const middle = ({ max, min }: { readonly max: number; readonly min: number }): number => (max + min) / 2;

export function blindVolumes({ dash, length, stem }: Pick<BlindRivet, 'dash' | 'length' | 'stem'>): BlindVolumes {
  const size = blindSize(dash);
  const tube = cylinder(middle(size.body), length) - cylinder(size.mandrel, length);
  return {
    body: tube + boredCap(middle(size.head), size.head.height, size.mandrel),
    mandrelHead: frustum(size.mandrel, size.body.min, size.blindSide),
    stem: cylinder(size.mandrel, length + size.head.height + size.protrusion),
    stemKept: stem === 'retained' ? cylinder(size.mandrel, length + size.head.height) : 0,
  };
}
