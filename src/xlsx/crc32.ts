/** The check sum of zip archives (CRC-32 of ISO 3309), eight bytes a step: a large sheet is tens of megabytes. */
const TABLES: readonly Uint32Array[] = tables();

function tables(): Uint32Array[] {
  const all = Array.from({ length: 8 }, () => new Uint32Array(256));
  for (let n = 0; n < 256; n++) {
    let value = n;
    for (let bit = 0; bit < 8; bit++) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
    all[0]![n] = value >>> 0;
  }
  for (let n = 0; n < 256; n++) {
    for (let t = 1; t < 8; t++) {
      const before = all[t - 1]![n]!;
      all[t]![n] = (all[0]![before & 0xff]! ^ (before >>> 8)) >>> 0;
    }
  }
  return all;
}

export function crc32(bytes: Uint8Array): number {
  const [t0, t1, t2, t3, t4, t5, t6, t7] = TABLES as unknown as [
    Uint32Array,
    Uint32Array,
    Uint32Array,
    Uint32Array,
    Uint32Array,
    Uint32Array,
    Uint32Array,
    Uint32Array,
  ];
  let crc = 0xffffffff;
  let at = 0;
  for (const whole = bytes.length - 7; at < whole; at += 8) {
    const low = crc ^ (bytes[at]! | (bytes[at + 1]! << 8) | (bytes[at + 2]! << 16) | (bytes[at + 3]! << 24));
    crc =
      t7[low & 0xff]! ^
      t6[(low >>> 8) & 0xff]! ^
      t5[(low >>> 16) & 0xff]! ^
      t4[low >>> 24]! ^
      t3[bytes[at + 4]!]! ^
      t2[bytes[at + 5]!]! ^
      t1[bytes[at + 6]!]! ^
      t0[bytes[at + 7]!]!;
  }
  for (; at < bytes.length; at++) crc = t0[(crc ^ bytes[at]!) & 0xff]! ^ (crc >>> 8);
  return (crc ^ 0xffffffff) >>> 0;
}
