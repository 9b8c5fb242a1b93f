/**
 * Volumes of rivets, in³, from simple solids.
 *
 * The models. A universal head is a spherical cap of the head's diameter and height (the real one is a
 * little flatter on top and fuller at the rim). A flush head is the frustum of its 100° cone. A blind
 * rivet's body is a tube whose bore is the mandrel's nominal diameter and whose outside is the middle of
 * its limits; its head is a spherical cap with the same bore; its mandrel is a wire, ending on the blind side
 * in a head that is a frustum from the mandrel's diameter to the body's least, as long as IFI-114 lets it
 * stand out of the body. IFI-114 defines that the mandrel breaks at or near its junction with that head:
 * so the head stays in a rivet that has been set, and the wire goes.
 */
import { BLIND_SIZES, type BlindSize } from './blind-data';
import type { BlindRivet, SolidRivet } from './rivet';
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

/** Height of a flush head: (A − D) / (2 tan 50°). */
export function flushHeadHeight(size: SolidSize): number {
  return (size.flushHead - size.shank) / (2 * Math.tan(((FLUSH_HEAD_ANGLE / 2) * Math.PI) / 180));
}

/** Volume of a solid rivet; driving it moves metal and takes none away. */
export function solidVolume(rivet: SolidRivet): number {
  const size = solidSize(rivet.dash);
  if (rivet.style === 'universal') {
    return (
      sphericalCap(UNIVERSAL_HEAD.diameter * size.shank, UNIVERSAL_HEAD.height * size.shank) +
      cylinder(size.shank, rivet.length)
    );
  }
  const height = flushHeadHeight(size);
  return frustum(size.flushHead, size.shank, height) + cylinder(size.shank, rivet.length - height);
}

/** Volumes of the three parts of a blind rivet. */
export interface BlindVolumes {
  /** Body and domed head, with the bore. */
  readonly body: number;
  /** Mandrel head, which stays. */
  readonly mandrelHead: number;
  /** Mandrel wire, which is pulled off. */
  readonly stem: number;
}

const middle = ({ max, min }: { readonly max: number; readonly min: number }): number => (max + min) / 2;

export function blindVolumes(rivet: BlindRivet): BlindVolumes {
  const size = blindSize(rivet.dash);
  const tube = cylinder(middle(size.body), rivet.length) - cylinder(size.mandrel, rivet.length);
  return {
    body: tube + boredCap(middle(size.head), size.head.height, size.mandrel),
    mandrelHead: frustum(size.mandrel, size.body.min, size.blindSide),
    stem: cylinder(size.mandrel, rivet.length + size.head.height + size.protrusion),
  };
}
