/**
 * Zip archives as workbooks use them (APPNOTE.TXT 6.3: stored and deflated entries, no encryption, one
 * volume). Written here and not with a library because entries that were not changed are carried with
 * their compressed bytes as they are, which no library at hand offers.
 */
import { deflateSync, Inflate, inflateSync } from 'fflate';
import { XlsxError } from './error';
import { joined } from './part-bytes';

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

function crc32(bytes: Uint8Array): number {
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

/** How entries are packed and unpacked: by plain script, which runs everywhere, or by what a host has that is faster. */
export interface Codec {
  /** Throws where the content is damaged or larger than `size`. */
  inflate(packed: Uint8Array, size: number): Uint8Array;
  deflate(content: Uint8Array): Uint8Array;
}

export const scriptCodec: Codec = {
  // The buffer has the declared size: what a false declaration would give beyond it is never kept.
  inflate: (packed, size) => inflateSync(packed, { out: new Uint8Array(size) }),
  deflate: (content) => deflateSync(content, { level: content.length > 2 ** 22 ? 3 : 6 }),
};

export interface ZipEntry {
  readonly name: string;
  readonly nameBytes: Uint8Array;
  readonly flags: number;
  readonly method: number;
  readonly time: number;
  readonly crc: number;
  readonly compressedSize: number;
  readonly size: number;
  /** Place of the entry's local header in the archive. */
  readonly offset: number;
  readonly attributes: number;
}

/** What makes a file a bomb and not a workbook: a large sheet deflates at most about 60 to 1. */
const LIMITS = {
  archive: 512 * 2 ** 20,
  entry: 480 * 2 ** 20,
  total: 1024 * 2 ** 20,
  entries: 20_000,
  ratio: 250,
  ratioFrom: 8 * 2 ** 20,
};

const LOCAL = 0x04034b50;
const CENTRAL = 0x02014b50;
const END = 0x06054b50;
const END_64 = 0x06064b50;
const END_64_LOCATOR = 0x07064b50;
const UTF8_NAME = 0x800;
const ENCRYPTED = 0x1;

/** The entries of an archive, from its central directory. */
export function readEntries(bytes: Uint8Array): ZipEntry[] {
  if (bytes.length > LIMITS.archive)
    throw new XlsxError('too-large', `The file is larger than ${LIMITS.archive / 2 ** 20} MB`);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { at, count } = findDirectory(view);
  if (count > LIMITS.entries) throw new XlsxError('too-large', `The file has more than ${LIMITS.entries} parts`);
  const entries: ZipEntry[] = [];
  let position = at;
  let total = 0;
  for (let i = 0; i < count; i++) {
    if (position + 46 > bytes.length || view.getUint32(position, true) !== CENTRAL) throw truncated();
    const entry = readCentral(view, bytes, position);
    checkLimits(entry);
    total += entry.size;
    entries.push(entry);
    position +=
      46 +
      view.getUint16(position + 28, true) +
      view.getUint16(position + 30, true) +
      view.getUint16(position + 32, true);
  }
  if (total > LIMITS.total)
    throw new XlsxError('too-large', `Unpacked, the file is larger than ${LIMITS.total / 2 ** 20} MB`);
  return entries;
}

/** An entry's content, checked against its size and check sum. */
export function readEntry(bytes: Uint8Array, entry: ZipEntry, codec: Codec = scriptCodec): Uint8Array {
  const raw = rawContent(bytes, entry);
  let content: Uint8Array;
  if (entry.method === 0) content = raw;
  else if (entry.method === 8) content = inflate(raw, entry, codec);
  else throw new XlsxError('unsupported', `${entry.name}: packed by a method that workbooks do not use`);
  if (content.length !== entry.size || crc32(content) !== entry.crc)
    throw new XlsxError('corrupt', `${entry.name} is damaged: its content does not match its check sum. ${ANOTHER}`);
  return content;
}

/** Packed bytes that are unpacked at a time where only the beginning is wanted. */
const STEP = 2 ** 14;

/** The beginning of an entry's content: `length` bytes and some more, or all of it. Not checked. */
export function readBeginning(bytes: Uint8Array, entry: ZipEntry, length: number): Uint8Array {
  const raw = rawContent(bytes, entry);
  if (entry.method === 0) return raw.subarray(0, length);
  const pieces: Uint8Array[] = [];
  let unpacked = 0;
  const stream = new Inflate((piece) => {
    pieces.push(piece);
    unpacked += piece.length;
  });
  for (let at = 0; at < raw.length && unpacked < length; at += STEP)
    stream.push(raw.subarray(at, at + STEP), at + STEP >= raw.length);
  return joined(pieces);
}

function inflate(raw: Uint8Array, entry: ZipEntry, codec: Codec): Uint8Array {
  try {
    return codec.inflate(raw, entry.size);
  } catch (error) {
    throw new XlsxError('corrupt', `${entry.name} is damaged and cannot be unpacked. ${ANOTHER}`, { cause: error });
  }
}

/** What becomes of an archive: changed or new contents by name (undefined: the entry goes). */
export type EntryChanges = ReadonlyMap<string, Uint8Array | undefined>;

/**
 * The archive with some entries changed. Unchanged ones keep their order, their compressed bytes, dates
 * and attributes; new ones are appended.
 */
export function rewriteArchive(
  bytes: Uint8Array,
  entries: readonly ZipEntry[],
  changes: EntryChanges,
  codec: Codec = scriptCodec,
): Uint8Array {
  const known = new Set(entries.map((entry) => entry.name));
  const kept = entries.filter((entry) => !changes.has(entry.name) || changes.get(entry.name));
  const added = [...changes].flatMap(([name, content]) => (content && !known.has(name) ? [newEntry(name)] : []));
  const pieces: Uint8Array[] = [];
  const directory: Uint8Array[] = [];
  let at = 0;
  for (const old of [...kept, ...added]) {
    const content = changes.get(old.name);
    const { entry, packed } = content
      ? packedEntry(old, content, codec)
      : { entry: old, packed: rawContent(bytes, old) };
    const header = localHeader(entry);
    pieces.push(header, packed);
    directory.push(centralRecord(entry, at));
    at += header.length + packed.length;
  }
  const listed = joined(directory);
  return joined([...pieces, listed, endRecord(directory.length, listed.length, at)]);
}

/** A new archive of the given contents. */
export const writeArchive = (contents: EntryChanges): Uint8Array => rewriteArchive(new Uint8Array(), [], contents);

/** An entry with other content, which is stored as it is where packing does not make it smaller. */
function packedEntry(
  entry: ZipEntry,
  content: Uint8Array,
  codec: Codec,
): { readonly entry: ZipEntry; readonly packed: Uint8Array } {
  const deflated = codec.deflate(content);
  const [method, packed] = deflated.length < content.length ? [8, deflated] : [0, content];
  const written = { method, crc: crc32(content), size: content.length, compressedSize: packed.length };
  return { entry: { ...entry, ...written }, packed };
}

/** A number of a record, and the bytes that it takes. */
type Field = readonly [value: number, bytes: 2 | 4];

/** A record of the archive: its numbers, the lowest byte of each first, and the name of the entry. */
const record = (fields: readonly Field[], name: Uint8Array = new Uint8Array()): Uint8Array =>
  Uint8Array.from([
    ...fields.flatMap(([value, bytes]) => Array.from({ length: bytes }, (_byte, at) => (value >>> (8 * at)) & 0xff)),
    ...name,
  ]);

/** The fields that local header and directory share, from "version needed" to the length of the name. */
const sharedFields = ({ flags, method, time, crc, compressedSize, size, nameBytes }: ZipEntry): Field[] => [
  [20, 2],
  // Sizes stand in the header, so the flag that promises them after the data goes.
  [flags & ~0x8, 2],
  [method, 2],
  [time, 4],
  [crc, 4],
  [compressedSize, 4],
  [size, 4],
  [nameBytes.length, 2],
];

/** There are no extra fields. */
const localHeader = (entry: ZipEntry): Uint8Array =>
  record([[LOCAL, 4], ...sharedFields(entry), [0, 2]], entry.nameBytes);

/** There are no extra fields, no comment, one volume and no attributes of the content. */
const centralRecord = (entry: ZipEntry, offset: number): Uint8Array =>
  record(
    [[CENTRAL, 4], [20, 2], ...sharedFields(entry), [0, 2], [0, 2], [0, 2], [0, 2], [entry.attributes, 4], [offset, 4]],
    entry.nameBytes,
  );

/** One volume, which the directory and all its entries are in, and no comment. */
const endRecord = (entries: number, directorySize: number, directoryAt: number): Uint8Array =>
  record([
    [END, 4],
    [0, 2],
    [0, 2],
    [entries, 2],
    [entries, 2],
    [directorySize, 4],
    [directoryAt, 4],
    [0, 2],
  ]);

/** Dates of new entries are fixed (1 January 1980), so that the same content gives the same file. */
function newEntry(name: string): ZipEntry {
  const nameBytes = new TextEncoder().encode(name);
  return {
    name,
    nameBytes,
    flags: UTF8_NAME,
    method: 8,
    time: 0x00210000,
    crc: 0,
    compressedSize: 0,
    size: 0,
    offset: 0,
    attributes: 0,
  };
}

function findDirectory(view: DataView): { at: number; count: number } {
  const last = view.byteLength - 22;
  for (let at = last; at >= Math.max(0, last - 0xffff); at--) {
    if (view.getUint32(at, true) !== END) continue;
    const count = view.getUint16(at + 10, true);
    const start = view.getUint32(at + 16, true);
    if (count !== 0xffff && start !== 0xffffffff) return { at: start, count };
    return findDirectory64(view, at - 20);
  }
  throw truncated();
}

function findDirectory64(view: DataView, locator: number): { at: number; count: number } {
  if (locator < 0 || view.getUint32(locator, true) !== END_64_LOCATOR) throw truncated();
  const end = Number(view.getBigUint64(locator + 8, true));
  if (end + 56 > view.byteLength || view.getUint32(end, true) !== END_64) throw truncated();
  return { at: Number(view.getBigUint64(end + 48, true)), count: Number(view.getBigUint64(end + 32, true)) };
}

function readCentral(view: DataView, bytes: Uint8Array, at: number): ZipEntry {
  const flags = view.getUint16(at + 8, true);
  const nameLength = view.getUint16(at + 28, true);
  const nameBytes = bytes.slice(at + 46, at + 46 + nameLength);
  const entry = {
    name: new TextDecoder(flags & UTF8_NAME ? 'utf-8' : 'latin1').decode(nameBytes),
    nameBytes,
    flags,
    method: view.getUint16(at + 10, true),
    time: view.getUint32(at + 12, true),
    crc: view.getUint32(at + 16, true),
    compressedSize: view.getUint32(at + 20, true),
    size: view.getUint32(at + 24, true),
    offset: view.getUint32(at + 42, true),
    attributes: view.getUint32(at + 38, true),
  };
  return { ...entry, ...sizes64(view, at + 46 + nameLength, view.getUint16(at + 30, true), entry) };
}

/** Sizes and place from the 64-bit extra field, where the short fields say that they stand there. */
function sizes64(
  view: DataView,
  start: number,
  length: number,
  short: { size: number; compressedSize: number; offset: number },
): object {
  const wide: Record<string, number> = {};
  const end = Math.min(start + length, view.byteLength);
  for (let at = start; at + 4 <= end; at += 4 + view.getUint16(at + 2, true)) {
    if (view.getUint16(at, true) !== 1) continue;
    let field = at + 4;
    for (const name of ['size', 'compressedSize', 'offset'] as const) {
      if (short[name] !== 0xffffffff || field + 8 > end) continue;
      wide[name] = Number(view.getBigUint64(field, true));
      field += 8;
    }
  }
  return wide;
}

function checkLimits(entry: ZipEntry): void {
  if (entry.flags & ENCRYPTED)
    throw new XlsxError(
      'encrypted',
      'The file is encrypted: open it in its own program and save it without a password',
    );
  if (entry.size > LIMITS.entry)
    throw new XlsxError('too-large', `${entry.name}: larger than ${LIMITS.entry / 2 ** 20} MB unpacked`);
  if (entry.size > LIMITS.ratioFrom && entry.size > entry.compressedSize * LIMITS.ratio) {
    throw new XlsxError(
      'too-large',
      `${entry.name}: unpacks to more than ${LIMITS.ratio} times its size, which no workbook does`,
    );
  }
}

function rawContent(bytes: Uint8Array, entry: ZipEntry): Uint8Array {
  const { offset } = entry;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (offset + 30 > bytes.length || view.getUint32(offset, true) !== LOCAL) throw truncated();
  const start = offset + 30 + view.getUint16(offset + 26, true) + view.getUint16(offset + 28, true);
  if (start + entry.compressedSize > bytes.length) throw truncated();
  return bytes.subarray(start, start + entry.compressedSize);
}

/** What to do about a file that came to harm on its way. */
const ANOTHER = 'Take another copy of the file.';

const truncated = (): XlsxError =>
  new XlsxError(
    'truncated',
    `The file is cut short or damaged: its list of parts does not match its content. ${ANOTHER}`,
  );
