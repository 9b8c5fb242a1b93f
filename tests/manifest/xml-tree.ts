import { SaxesParser } from 'saxes';

export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Element[];
  readonly text: string;
  readonly path: string;
}

/** The element tree of an XML text; throws where it is not well formed. */
export function parseXml(xml: string): Element {
  const parser = new SaxesParser();
  const root = { name: '', attributes: {}, children: [] as Element[], text: '', path: '' };
  const open: (Omit<Element, 'children' | 'text'> & { children: Element[]; text: string })[] = [root];
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    const parent = open[open.length - 1]!;
    const element = {
      name,
      attributes: attributes as Record<string, string>,
      children: [] as Element[],
      text: '',
      path: `${parent.path}/${name}`,
    };
    parent.children.push(element);
    open.push(element);
  });
  parser.on('text', (text) => void (open[open.length - 1]!.text += text));
  parser.on('closetag', () => void open.pop());
  parser.write(xml).close();
  return root.children[0]!;
}

/** The element and all below it. */
export const all = (element: Element): Element[] => [element, ...element.children.flatMap(all)];

/** Every element of a name. */
export const named = (root: Element, name: string): Element[] => all(root).filter((element) => element.name === name);
