/**
 * A part as a tree, for changes that need an element with what stands in it. Written out again, it is the very text
 * that was read but for what was changed. Meant for small parts: cells of a sheet are walked over instead.
 */
import { XlsxError } from './error';
import { escapeXml, unescapeXml, XmlScanner } from './xml';

interface Attribute {
  readonly name: string;
  value: string;
  /** Text of the attribute in the tag, with the space before it; written anew where the value changed. */
  text: string;
}

export class XmlElement {
  /** Elements, and what stands between them as it is in the file: texts, comments. */
  readonly children: (XmlElement | string)[] = [];
  private list: Attribute[] | undefined;

  constructor(
    /** Without its prefix. */
    readonly name: string,
    /** With it. */
    readonly qualified: string,
    readonly parent: XmlElement | undefined,
    private tag: string,
    private readonly closesItself: boolean,
  ) {}

  get elements(): XmlElement[] {
    return this.children.filter((child) => typeof child !== 'string');
  }

  /** Children of a name, in any namespace. */
  named(name: string): XmlElement[] {
    return this.elements.filter((child) => child.name === name);
  }

  /** The entries of the lists of a name among the children. */
  listed(list: string, entry: string): XmlElement[] {
    return this.named(list).flatMap((one) => one.named(entry));
  }

  /** All elements below this one, itself first, as they stand in the document. */
  *walk(): Generator<XmlElement> {
    yield this;
    for (const child of this.children) if (typeof child !== 'string') yield* child.walk();
  }

  /** All elements of a name at or below this one. */
  all(name: string): XmlElement[] {
    return [...this.walk()].filter((one) => one.name === name);
  }

  get(attribute: string): string | undefined {
    return this.attributes.find(({ name }) => name === attribute)?.value;
  }

  /** The first attribute of this name under any prefix: r:id. */
  getPrefixed(attribute: string): string | undefined {
    return this.attributes.find(({ name }) => name.endsWith(`:${attribute}`))?.value;
  }

  /** undefined takes the attribute away. */
  set(attribute: string, value: string | undefined): void {
    const found = this.attributes.findIndex(({ name }) => name === attribute);
    if (value === undefined) {
      if (found >= 0) this.attributes.splice(found, 1);
      return;
    }
    const made = { name: attribute, value, text: ` ${attribute}="${escapeXml(value)}"` };
    if (found < 0) this.attributes.push(made);
    else if (this.attributes[found]!.value !== value) this.attributes[found] = made;
  }

  /** The text of an element that holds nothing else. */
  get text(): string {
    return this.children.map((child) => (typeof child === 'string' ? plain(child) : child.text)).join('');
  }

  set text(text: string) {
    if (text === this.text) return;
    this.children.length = 0;
    this.children.push(escapeXml(text));
  }

  remove(): void {
    const list = this.parent?.children ?? [];
    const index = list.indexOf(this);
    if (index >= 0) list.splice(index, 1);
  }

  /** Adds elements, given as XML whose names have no prefix yet, behind the last child or before `next`. */
  add(xml: string, next?: XmlElement): XmlElement {
    const prefix = this.qualified.slice(0, this.qualified.length - this.name.length);
    const made = parseElement(prefix ? xml.replace(/<(\/?)(?=[A-Za-z])/g, `<$1${prefix}`) : xml, this);
    const at = next ? this.children.indexOf(next) : -1;
    this.children.splice(at < 0 ? this.children.length : at, 0, made);
    return made;
  }

  toString(): string {
    const tag = this.list ? `<${this.qualified}${this.list.map(({ text }) => text).join('')}` : this.tag;
    if (this.children.length === 0) return this.closesItself ? `${tag}/>` : `${tag}></${this.qualified}>`;
    return `${tag}>${this.children.join('')}</${this.qualified}>`;
  }

  private get attributes(): Attribute[] {
    if (this.list) return this.list;
    const list: Attribute[] = [];
    const text = `${this.tag}>`;
    const scanner = new XmlScanner(text);
    scanner.next();
    scanner.attributes((name, value, from, to) => list.push({ name, value, text: text.slice(from, to) }));
    return (this.list = list);
  }
}

/** A document whose elements are changed in place. */
export class XmlTree {
  readonly root: XmlElement;
  private readonly start: number;
  private readonly end: number;

  constructor(private readonly xml: string) {
    const scanner = new XmlScanner(xml);
    const { value } = scanner.tags().next();
    if (!value) throw new XlsxError('corrupt', 'A part of the file is empty');
    this.start = scanner.start;
    this.root = read(scanner, value === 'open', undefined);
    this.end = scanner.end;
  }

  get isChanged(): boolean {
    return this.toString() !== this.xml;
  }

  toString(): string {
    return this.xml.slice(0, this.start) + this.root.toString() + this.xml.slice(this.end);
  }
}

function parseElement(xml: string, parent: XmlElement): XmlElement {
  const scanner = new XmlScanner(xml);
  return read(scanner, scanner.next() === 'open', parent);
}

/** The element whose start tag was just read. */
function read(scanner: XmlScanner, open: boolean, parent: XmlElement | undefined): XmlElement {
  const { xml } = scanner;
  const whole = xml.slice(scanner.start, scanner.end);
  const tag = whole.slice(0, open ? -1 : -2);
  const [qualified] = /^[^\s/>]+/.exec(whole.slice(1))!;
  const element = new XmlElement(scanner.name, qualified, parent, tag, !open);
  if (!open) return element;
  for (let at = scanner.end; ; at = scanner.end) {
    const token = scanner.next();
    // Comments and instructions, which the scanner passes over, are kept.
    if (scanner.start > at) element.children.push(xml.slice(at, scanner.start));
    if (token === 'close') return element;
    if (token === 'end') throw new XlsxError('corrupt', 'A part of the file is not well-formed XML');
    if (token === 'text') element.children.push(xml.slice(scanner.start, scanner.end));
    else element.children.push(read(scanner, token === 'open', element));
  }
}

const plain = (text: string): string =>
  text
    .replace(/<!--[^]*?-->|<\?[^]*?\?>/g, '')
    .split(/(<!\[CDATA\[[^]*?\]\]>)/)
    .map((piece) => (piece.startsWith('<![CDATA[') ? piece.slice(9, -3) : unescapeXml(piece)))
    .join('');
