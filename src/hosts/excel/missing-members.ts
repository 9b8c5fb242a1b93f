/**
 * Members of the language's own objects that came after ES2016, for the engine in which Excel on Windows runs custom
 * functions: it is not documented, and may be as old as that. What an engine has is left as it is. Imported before all
 * else, since modules may use a member while they are loaded. Source: ECMA-262, editions 2017 to 2023.
 */

type Method = (this: never, ...args: never[]) => unknown;

function bring(target: object, methods: Readonly<Record<string, Method>>): void {
  for (const name of keysOf(methods))
    if (!(name in target))
      Object.defineProperty(target, name, { value: methods[name], writable: true, configurable: true });
}

const keysOf = (from: object): string[] => Object.keys(from);

function at(this: ArrayLike<unknown>, index: number): unknown {
  const whole = Math.trunc(index) || 0;
  return this[whole < 0 ? this.length + whole : whole];
}

function flattened(list: readonly unknown[], depth: number, into: unknown[]): unknown[] {
  list.forEach((one) => {
    if (depth > 0 && Array.isArray(one)) flattened(one, depth - 1, into);
    else into.push(one);
  });
  return into;
}

function padding(text: string, length: number, fill: string): string {
  const missing = length - text.length;
  return missing <= 0 || fill === '' ? '' : fill.repeat(Math.ceil(missing / fill.length)).slice(0, missing);
}

type Test = (value: unknown, index: number, list: readonly unknown[]) => boolean;

function findLastIndex(this: readonly unknown[], test: Test): number {
  for (let index = this.length - 1; index >= 0; index--) if (test(this[index], index, this)) return index;
  return -1;
}

bring(Array.prototype, {
  at,
  flat(this: unknown[], depth = 1) {
    return flattened(this, depth, []);
  },
  flatMap(this: unknown[], take: (one: unknown, index: number) => unknown) {
    return flattened(
      this.map((one, index) => take(one, index)),
      1,
      [],
    );
  },
  findLastIndex,
  findLast(this: unknown[], test: Test) {
    return this[findLastIndex.call(this, test)];
  },
});

bring(Object, {
  values: (from: Record<string, unknown>) => keysOf(from).map((key) => from[key]),
  entries: (from: Record<string, unknown>) => keysOf(from).map((key) => [key, from[key]]),
  fromEntries(entries: Iterable<readonly [string, unknown]>) {
    const made: Record<string, unknown> = {};
    for (const [key, value] of entries)
      Object.defineProperty(made, key, { value, writable: true, enumerable: true, configurable: true });
    return made;
  },
  hasOwn: (from: object, key: PropertyKey) => Object.prototype.hasOwnProperty.call(from, key),
  getOwnPropertyDescriptors(from: object) {
    const made: Record<PropertyKey, PropertyDescriptor> = {};
    for (const key of Reflect.ownKeys(from)) made[key] = Object.getOwnPropertyDescriptor(from, key)!;
    return made;
  },
});

bring(String.prototype, {
  at,
  padStart(this: string, length: number, fill = ' ') {
    return padding(this, length, fill) + this;
  },
  padEnd(this: string, length: number, fill = ' ') {
    return this + padding(this, length, fill);
  },
  trimStart(this: string) {
    return this.replace(/^\s+/, '');
  },
  trimEnd(this: string) {
    return this.replace(/\s+$/, '');
  },
  replaceAll(this: string, what: string | RegExp, by: string) {
    return typeof what === 'string' && typeof by === 'string' ? this.split(what).join(by) : this.replace(what, by);
  },
  matchAll(this: string, pattern: RegExp) {
    const found: RegExpExecArray[] = [];
    const search = new RegExp(pattern.source, pattern.flags);
    for (let match = search.exec(this); match; match = search.exec(this)) {
      found.push(match);
      if (match[0] === '') search.lastIndex++;
    }
    return found[Symbol.iterator]();
  },
});
