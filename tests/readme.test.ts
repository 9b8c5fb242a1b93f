/** What README.md, DEVELOPERS.md and the function reference print: formulas give what is said, commands run, names exist. */
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { printResult } from '../src/cli/terminal';
import { PRICE_COLUMNS } from '../src/core/price';
import { catalogue, exampleFormula } from '../src/functions';
import { CellError } from '../src/sheet';
import { PARTS } from '../src/project';
import { referencePages } from '../src/functions/reference';
import { evaluate } from '../src/calculation';
import { readWorkbook } from '../src/xlsx';
import { tarebook } from './cli/tarebook';

const root = fileURLToPath(new URL('..', import.meta.url));
const readme = readFileSync(`${root}README.md`, 'utf8');
const developers = readFileSync(`${root}DEVELOPERS.md`, 'utf8');
const { scripts } = JSON.parse(readFileSync(`${root}package.json`, 'utf8')) as { scripts: Record<string, string> };

interface Fence {
  readonly language: string;
  /** What stands before it, back to the fence or heading above. */
  readonly before: string;
  readonly text: string;
}

const fences = (page: string): Fence[] =>
  [...page.matchAll(/(?<=^|\n)```(\w*)\n([\s\S]*?)\n```/g)].map((match) => {
    const above = page.slice(0, match.index);
    return {
      language: match[1]!,
      text: match[2]!,
      before: above.slice(Math.max(above.lastIndexOf('```'), above.lastIndexOf('\n#'), 0)),
    };
  });
const spans = (text: string): string[] =>
  [...text.replace(/```[\s\S]*?```/g, '').matchAll(/`([^`\n]+)`/g)].map((match) => match[1]!);
const without = (page: string, language: string): string =>
  page.replace(new RegExp(`\`\`\`${language}\n[\\s\\S]*?\n\`\`\``, 'g'), '');

/** A printed value agrees with a computed one to the digits that are printed, or up to its "…". */
function expectAgrees(got: string, printed: string): void {
  if (printed.endsWith('…')) return expect(got.slice(0, printed.length - 1)).toBe(printed.slice(0, -1));
  if (printed === '' || !Number.isFinite(Number(printed))) return expect(got).toBe(printed);
  const decimals = printed.split('.')[1]?.length ?? 0;
  expect(Number(got).toFixed(decimals)).toBe(printed);
}

const folder = mkdtempSync(join(tmpdir(), 'tarebook-readme-'));
const start = process.cwd();
beforeAll(() => {
  cpSync(`${root}sample-workbooks`, join(folder, 'sample-workbooks'), { recursive: true });
  process.chdir(folder);
});
afterAll(() => {
  process.chdir(start);
  rmSync(folder, { recursive: true, force: true });
});

describe('formulas in the README', () => {
  const rows = readme.split('\n').filter((line) => /^\| `=/.test(line));
  const wing = readWorkbook(readFileSync(`${root}sample-workbooks/wing.xlsx`));

  it.each(
    rows
      .map((line) => line.split(' | ').map((cell) => cell.replace(/^\| /, '')))
      .map(([formula, gets]) => [spans(formula!)[0]!, gets!] as const),
  )('%s', async (formula, gets) => {
    const printed = spans(gets)[0];
    // A range without a sheet is one of the sample wing's parts list.
    const onParts = formula.replace(/(?<![!\w])([A-Z]+\d+:[A-Z]+\d+)/g, 'Parts!$1');
    const result = evaluate(onParts, onParts === formula ? undefined : wing);
    if (!Array.isArray(result)) {
      expectAgrees(result instanceof CellError ? String(result) : printResult(result), printed ?? '');
      return;
    }
    expect(result.flat().filter((cell) => cell instanceof CellError)).toEqual([]);
    expect(result.flat().some((cell) => typeof cell === 'number')).toBe(true);
    const last = printResult(result).split('\n').at(-1)!.split('\t');
    printed?.split(', ').forEach((value, column) => expectAgrees(last[column]!, value));
  });

  it('are all in those rows, in commands, or patterns with words for their arguments', () => {
    expect(rows.length).toBeGreaterThanOrEqual(7);
    const inText = spans(
      readme
        .split('\n')
        .filter((line) => !rows.includes(line))
        .join('\n'),
    ).filter((span) => /^=TARE\..*\d/.test(span));
    expect(inText.filter((span) => /\(/.test(span) && !/\((area|\))/.test(span))).toEqual([]);
  });
});

/** Words of a command line, quotes taken off, and what its comment says that it prints. */
function command(line: string): { readonly words: readonly string[]; readonly prints: string | undefined } {
  const [, code = line, comment] = /^((?:'[^']*'|"[^"]*"|[^'"#])*?)\s*(?:#\s*(.*))?$/.exec(line) ?? [];
  return {
    words: [...code.matchAll(/'([^']*)'|"([^"]*)"|(\S+)/g)].map((match) => match[1] ?? match[2] ?? match[3]!),
    prints: /^prints (.*)$/.exec(comment ?? '')?.[1],
  };
}

describe.each([
  ['README.md', readme],
  ['DEVELOPERS.md', developers],
])('commands in %s', (_name, page) => {
  const samples = fences(page);
  for (const { text, before } of samples.filter(({ language }) => language === 'csv'))
    writeFileSync(
      join(
        folder,
        spans(before)
          .filter((span) => span.endsWith('.csv'))
          .at(-1)!,
      ),
      `${text}\n`,
    );

  const lines = [
    ...samples.filter(({ language }) => language === 'sh').flatMap(({ text }) => text.split('\n')),
    ...spans(page).filter((span) => /^(npm|npx tarebook)\b/.test(span)),
  ].filter((line) => line.trim() !== '');
  const commands = [...new Map(lines.map((line) => [line.replace(/\s*#.*/, ''), command(line)]))];

  it.each(commands.filter(([, { words }]) => words[0] === 'npx' && words[1] === 'tarebook'))(
    '%s',
    async (_line, { words, prints }) => {
      const { code, out, err } = await tarebook(...words.slice(2));
      expect({ code, err: code === 0 ? '' : err }).toEqual({ code: 0, err: '' });
      expect(out).not.toBe('');
      if (prints !== undefined) expect(out.trimEnd()).toBe(prints);
      for (const [index, word] of words.entries())
        if (/^(-o|--html|--dxf|--csv|--output)$/.test(word))
          expect(existsSync(join(folder, words[index + 1]!)), words[index + 1]).toBe(true);
    },
    60_000,
  );

  it.each(commands.filter(([, { words }]) => words[0] === 'npm'))(
    '%s is a script, and takes those options',
    (_line, { words }) => {
      const script = words[1] === 'run' ? words[2]! : words[1]!;
      expect(Object.keys(scripts)).toContain(script);
      const files = [...scripts[script]!.matchAll(/\S+\.(?:ts|mjs)/g)].map(([file]) => `${root}${file}`);
      expect(files.filter((file) => !existsSync(file))).toEqual([]);
      const source = files.map((file) => readFileSync(file, 'utf8')).join('\n');
      const after = words.indexOf('--') === -1 ? [] : words.slice(words.indexOf('--') + 1);
      for (const option of after.filter((word) => word.startsWith('--')))
        expect(source).toMatch(new RegExp(`\\b${option.slice(2)}\\b`));
    },
  );

  it.each(commands.filter(([, { words }]) => words[0] === 'npx' && words[1] !== 'tarebook'))(
    '%s is another’s command',
    (line) => expect(line).toMatch(/^npx office-addin-/),
  );
});

it('every script that is meant to be called is in the table of DEVELOPERS.md', () => {
  const named = new Set(spans(developers).map((span) => /^npm (?:run )?([\w:]+)/.exec(span)?.[1]));
  expect(Object.keys(scripts).filter((script) => script !== 'prepare' && !named.has(script))).toEqual([]);
});

describe('names', () => {
  it.each([
    ['README.md', readme],
    ['DEVELOPERS.md', developers],
  ])('of files and folders in %s exist', (_name, page) => {
    // What a build makes is there after it; what a reader makes is named by a command or a sample.
    const made = new Set(fences(page).flatMap(({ text }) => command(text).words));
    const paths = spans(without(page, 'sh')).filter(
      (span) =>
        /^[\w.@-]*[\w@-](?:\/[\w.@*-]+)*\/?$/.test(span) &&
        !/^\.\w+$/.test(span) &&
        /\/|\.(?:xlsx|md|json|ts|tsx|mjs|cjs|csv)$/.test(span),
    );
    // A name without a folder stands beside what the sentence is about.
    const bare = new Set(
      [
        ...readdirSync(`${root}src`, { recursive: true }),
        ...readdirSync(`${root}sample-workbooks`),
        ...readdirSync(`${root}tools`),
      ].map((path) => basename(String(path))),
    );
    const tools = readdirSync(`${root}tools`, { recursive: true })
      .map(String)
      .filter((path) => /\.(ts|mjs)$/.test(path))
      .map((path) => readFileSync(`${root}tools/${path}`, 'utf8'))
      .join('\n');
    const exists = (path: string): boolean =>
      existsSync(`${root}${path}`) ||
      existsSync(`${root}${path}.test.ts`) ||
      existsSync(`${root}${path}.ts`) ||
      existsSync(join(folder, path)) ||
      made.has(path) ||
      (!path.includes('/') && bare.has(path)) ||
      (path.startsWith('dist/') && (existsSync(`${root}tools/webpack/${path.slice(5)}.mjs`) || tools.includes(path)));
    expect(paths.filter((path) => !exists(path))).toEqual([]);
  });

  it('every sample workbook is explained', () => {
    expect(readdirSync(`${root}sample-workbooks`).filter((name) => !readme.includes(`\`${name}\``))).toEqual([]);
  });

  it('of columns are those that are read', () => {
    const list = (start: RegExp): string[] => start.exec(readme)![1]!.split(', ');
    expect(list(/the parts list, [^:]*: ([^.]*)\./)).toEqual(
      PARTS.columns.map(({ label }) => label.replace(/ \(.*/, '')),
    );
    expect(/Only ([^.]*) must be there/.exec(readme)![1]!.split(/, | and /)).toEqual(
      PARTS.columns.filter(({ required }) => required).map(({ label }) => label.replace(/ \(.*/, '')),
    );
    expect(list(/the price list, [^:]*: ([^.]*)\./)).toEqual(PRICE_COLUMNS.map(({ label }) => label));
  });
});

describe('the function reference', () => {
  const decode = (html: string): string =>
    html
      .replace(/<[^>]*>/g, '')
      .replaceAll('&quot;', '"')
      .replaceAll('&lt;', '<')
      .replaceAll('&gt;', '>')
      .replaceAll('&#39;', "'")
      .replaceAll('&amp;', '&');
  const examples = Object.entries(referencePages()).flatMap(([page, html]) =>
    [
      ...html.matchAll(
        /<pre><code>(=TARE[^<]*)<\/code><\/pre>\n<p>gives(?: <strong class="number">([^<]*)<\/strong><\/p>|<\/p>\n<div class="scroll"><table>(.*?)<\/table>)/gs,
      ),
    ].map(([, formula, one, table]) => ({
      page,
      formula: decode(formula!),
      rows:
        one === undefined
          ? [...table!.matchAll(/<tr>(.*?)<\/tr>/gs)].map(([, row]) =>
              [...row!.matchAll(/<td[^>]*>(.*?)<\/td>/gs)].map(([, cell]) => decode(cell!)),
            )
          : [[decode(one)]],
    })),
  );

  const within = new Map(
    catalogue.flatMap((definition) =>
      definition.examples.map((example) => [exampleFormula(definition, example), example.within] as const),
    ),
  );

  it('has examples', () => expect(examples.length).toBeGreaterThan(100));

  it.each(examples)('$formula', async ({ formula, rows }) => {
    const result = evaluate(formula);
    const got = Array.isArray(result) ? result : [[result]];
    expect(got.map((row) => row.length)).toEqual(rows.map((row) => row.length));
    rows.flat().forEach((shown, index) => {
      const cell = got.flat()[index]!;
      // Six digits are shown; a published value may be off by what its example says.
      if (typeof cell === 'number')
        expect(Math.abs(cell - Number(shown)), `${cell} for ${shown}`).toBeLessThanOrEqual(
          Math.max(within.get(formula) ?? 0, Math.abs(cell) * 5.001e-6),
        );
      else
        expect(cell === '' ? '(blank)' : typeof cell === 'boolean' ? String(cell).toUpperCase() : String(cell)).toBe(
          shown,
        );
    });
  });
});
