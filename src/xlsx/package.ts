/** A workbook's package (Open Packaging Conventions, ECMA-376 part 2): parts, their types and relationships. */
import { elementsOf, insertLast, replaceElements } from './elements';
import { XlsxError } from './error';
import { escapeXml } from './xml';
import { readBeginning, readEntries, readEntry, rewriteArchive, scriptCodec, type Codec, type ZipEntry } from './zip';

export interface Relationship {
  readonly id: string;
  /** The last step of the type's address: "worksheet", "table"; strict and transitional files differ only before it. */
  readonly type: string;
  /** Name of the part it leads to; undefined where it leads out of the package. */
  readonly target: string | undefined;
  /** Where it leads, as it is written. */
  readonly address: string;
}

const TYPES = '[Content_Types].xml';
/** The namespaces of the transitional form, in which texts are made here. */
export const RELATIONSHIPS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
export const SPREADSHEET = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
export const XML_HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
/** Namespaces of the transitional form and of the strict one. Source: ECMA-376 part 1 and part 4, annex A. */
const STRICT: readonly (readonly [transitional: string, strict: string])[] = [
  [RELATIONSHIPS, 'http://purl.oclc.org/ooxml/officeDocument/relationships'],
  [SPREADSHEET, 'http://purl.oclc.org/ooxml/spreadsheetml/main'],
];
/** ">" */
const TAG_END = 62;
const OLD_OFFICE = [0xd0, 0xcf, 0x11, 0xe0];

/** Parts by name, read when asked for; changes are kept beside the original bytes until `save`. */
export class Package {
  private readonly entries: readonly ZipEntry[];
  /** By name in lower case: names of parts do not differ by case. */
  private readonly byName = new Map<string, ZipEntry>();
  private readonly changed = new Map<string, Uint8Array | undefined>();
  private readonly texts = new Map<string, string>();
  private strict: boolean | undefined;

  constructor(
    private readonly bytes: Uint8Array,
    private readonly codec: Codec = scriptCodec,
  ) {
    refuseOthers(bytes);
    this.entries = readEntries(bytes);
    for (const entry of this.entries) {
      const key = partKey(entry.name);
      if (this.byName.has(key)) throw new XlsxError('corrupt', `The file holds the part ${entry.name} twice`);
      this.byName.set(key, entry);
    }
    if (!this.has(TYPES)) throw new XlsxError('not-a-workbook', 'The file is a zip archive, but no workbook');
  }

  has(part: string): boolean {
    const entry = this.byName.get(partKey(part));
    const name = entry?.name ?? part;
    return this.changed.has(name) ? this.changed.get(name) !== undefined : entry !== undefined;
  }

  /** Names of all parts as they now stand. */
  parts(): string[] {
    const names = new Set([...this.entries.map(({ name }) => name), ...this.changed.keys()]);
    return [...names].filter((name) => this.has(name));
  }

  /** A part as text. */
  text(part: string): string {
    const kept = this.texts.get(partKey(part));
    if (kept !== undefined) return kept;
    const entry = this.byName.get(partKey(part));
    const content =
      this.changed.get(entry?.name ?? part) ?? (entry ? readEntry(this.bytes, entry, this.codec) : undefined);
    if (!content)
      throw new XlsxError(
        'corrupt',
        `The file is damaged: its part ${part} is missing. Save it again in the program that made it.`,
      );
    const text = decode(content, part);
    // Sheets are read once and are large: only the small parts are kept.
    if (text.length < 2 ** 20) this.texts.set(partKey(part), text);
    return text;
  }

  /** Bytes of a part as the file has it, unpacked; 0 where it lacks the part. */
  sizeOf(part: string): number {
    return this.byName.get(partKey(part))?.size ?? 0;
  }

  /** The beginning of a part as the file has it, some `length` bytes or all of it, to the end of a tag; not checked. */
  beginningOf(part: string, length: number): string {
    const entry = this.byName.get(partKey(part));
    if (!entry) return '';
    const beginning = readBeginning(this.bytes, entry, length);
    return decode(beginning.subarray(0, beginning.lastIndexOf(TAG_END) + 1), part);
  }

  /** A part's bytes as the file has them; undefined where it lacks the part. */
  bytesOf(part: string): Uint8Array | undefined {
    const entry = this.byName.get(partKey(part));
    return entry && readEntry(this.bytes, entry, this.codec);
  }

  /** Gives a part new text, which may be in UTF-8 already; undefined removes it. */
  set(part: string, text: string | Uint8Array | undefined): void {
    const name = this.byName.get(partKey(part))?.name ?? part;
    this.texts.delete(partKey(part));
    this.changed.set(name, typeof text === 'string' ? new TextEncoder().encode(text) : text);
  }

  /** Converts text from the transitional form, in which it is made here, to the form that this file has. */
  inForm(text: string): string {
    this.strict ??= this.has('_rels/.rels') && this.text('_rels/.rels').includes(STRICT[0]![1]);
    return this.strict ? STRICT.reduce((made, [from, to]) => made.replaceAll(from, to), text) : text;
  }

  /** Relationships that lead from a part ('' for the package itself). */
  relationships(part: string): Relationship[] {
    const name = relationshipsName(part);
    if (!this.has(name)) return [];
    return elementsOf(this.text(name), 'Relationship').map(({ attributes }) => {
      const address = attributes.get('Target') ?? '';
      return {
        id: attributes.get('Id') ?? '',
        type: (attributes.get('Type') ?? '').replace(/^.*\//, ''),
        address,
        target: attributes.get('TargetMode') === 'External' ? undefined : resolveTarget(part, address),
      };
    });
  }

  /** Names of the parts of a type that a part leads to and that are there. */
  related(part: string, type: string): string[] {
    return this.relationships(part).flatMap((one) =>
      one.type === type && one.target && this.has(one.target) ? [one.target] : [],
    );
  }

  /** Adds a relationship from a part to a part and returns its id. */
  relate(part: string, type: string, target: string): string {
    const name = relationshipsName(part);
    const taken = new Set(this.relationships(part).map((one) => one.id));
    let number = taken.size + 1;
    while (taken.has(`rId${number}`)) number++;
    const id = `rId${number}`;
    const record = `<Relationship Id="${id}" Type="${this.inForm(RELATIONSHIPS)}/${type}" Target="${escapeXml(relativeTarget(part, target))}"/>`;
    const empty = `${XML_HEAD}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"></Relationships>`;
    this.set(name, insertLast(this.has(name) ? this.text(name) : empty, 'Relationships', record));
    return id;
  }

  /** Removes the relationships from a part to a part. */
  unrelate(part: string, target: string): void {
    const name = relationshipsName(part);
    this.set(
      name,
      replaceElements(this.text(name), 'Relationship', ({ attributes }) =>
        partKey(resolveTarget(part, attributes.get('Target') ?? '')) === partKey(target) ? '' : undefined,
      ),
    );
  }

  /** Content type of a part. */
  contentType(part: string): string | undefined {
    const types = this.text(TYPES);
    const extension = part.slice(part.lastIndexOf('.') + 1).toLowerCase();
    const found =
      elementsOf(types, 'Override').find(
        ({ attributes }) => partKey(attributes.get('PartName') ?? '') === partKey(part),
      ) ??
      elementsOf(types, 'Default').findLast(
        ({ attributes }) => attributes.get('Extension')?.toLowerCase() === extension,
      );
    return found?.attributes.get('ContentType');
  }

  /** Adds a part with its content type. */
  addPart(part: string, contentType: string, text: string): void {
    this.set(part, this.inForm(text));
    this.set(
      TYPES,
      insertLast(this.text(TYPES), 'Types', `<Override PartName="/${escapeXml(part)}" ContentType="${contentType}"/>`),
    );
  }

  /** Removes a part and its content type. The caller removes the relationships to it. */
  removePart(part: string): void {
    this.set(part, undefined);
    this.set(
      TYPES,
      replaceElements(this.text(TYPES), 'Override', ({ attributes }) =>
        partKey(attributes.get('PartName') ?? '') === partKey(part) ? '' : undefined,
      ),
    );
  }

  /** A name like "xl/tables/table3.xml" that no part has. */
  freeName(before: string, after: string): string {
    let number = 1;
    while (this.has(`${before}${number}${after}`)) number++;
    return `${before}${number}${after}`;
  }

  save(): Uint8Array {
    return rewriteArchive(this.bytes, this.entries, this.changed, this.codec);
  }
}

/**
 * Names of parts compare without case, leading slash and the backslashes that some writers use, and however a space or
 * a letter is spelled in them: "my%20sheet.xml" is "my sheet.xml".
 */
function partKey(name: string): string {
  const plain = name.replaceAll('\\', '/').replace(/^\//, '').toLowerCase();
  if (!plain.includes('%')) return plain;
  try {
    return decodeURIComponent(plain).toLowerCase();
  } catch {
    return plain;
  }
}

const relationshipsName = (part: string): string => part.replace(/([^/]*)$/, '_rels/$1.rels');

function resolveTarget(part: string, target: string): string {
  const steps = target.startsWith('/') ? [] : part.split('/').slice(0, -1);
  for (const step of target.replace(/^\//, '').split('/')) {
    if (step === '..') steps.pop();
    else if (step !== '.' && step !== '') steps.push(step);
  }
  return steps.join('/');
}

/** The way from a part's folder to a part; the absolute spelling is as good, but not every reader knows it. */
function relativeTarget(from: string, to: string): string {
  const folder = from.split('/').slice(0, -1);
  const steps = to.split('/');
  let shared = 0;
  while (shared < folder.length && folder[shared]?.toLowerCase() === steps[shared]?.toLowerCase()) shared++;
  return [...folder.slice(shared).map(() => '..'), ...steps.slice(shared)].join('/');
}

function decode(content: Uint8Array, part: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(content);
  } catch (error) {
    throw new XlsxError('unsupported', `${part}: not in UTF-8`, { cause: error });
  }
}

/** Refuses a file that is not a zip archive, and says by its first bytes what it is instead. */
function refuseOthers(bytes: Uint8Array): void {
  if (bytes.length === 0) throw new XlsxError('truncated', 'The file is empty');
  if (OLD_OFFICE.every((byte, index) => bytes[index] === byte)) {
    const head = new TextDecoder('utf-16le').decode(bytes.subarray(0, Math.min(bytes.length, 2 ** 16) & ~1));
    if (head.includes('EncryptedPackage'))
      throw new XlsxError(
        'encrypted',
        'The workbook is encrypted: open it in its own program and save it without a password',
      );
    throw new XlsxError('old-format', 'The file is in the old binary form (.xls): save it as .xlsx first');
  }
  if (bytes[0] !== 0x50 || bytes[1] !== 0x4b) throw new XlsxError('not-a-workbook', 'The file is no .xlsx workbook');
}
