import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { loadLocale } from '../../../src/pane/locale';
import { collectTexts } from '../../../tools/texts/collect';
import { paneSource, TEXTS, textsFile, translations } from '../../../tools/texts/files';
import { compareTranslation } from '../../../tools/texts/translation';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const collected = collectTexts(paneSource(root));

describe('the texts of the pane', () => {
  it('are literals that a translator can take, with a value for every place', () =>
    expect(collected.faults).toEqual([]));

  it('stand in texts.json as they are in the source: npm run texts writes it', () =>
    expect(readFileSync(`${root}${TEXTS}`, 'utf8')).toBe(textsFile(collected)));

  it.each([...translations(root)])(
    'in %s are ICU messages with the same places, and are loaded by their tag',
    async (tag, translation) => {
      expect(compareTranslation(collected.texts.keys(), translation).faults).toEqual([]);
      expect((await loadLocale(tag)).texts).toEqual(translation);
    },
  );
});

describe('collecting', () => {
  const collect = (source: string) =>
    collectTexts([{ path: 'src/pane/a.tsx', source: `import { mark, rich, t } from '../locale';\n${source}` }]);
  const texts = (source: string) => [...collect(source).texts.keys()];

  it('finds literals, choices of literals, marked texts and texts with nodes', () => {
    expect(
      texts(
        "t('One'); t(old ? 'Two' : (`Three`)); const A = { a: mark('Four') }; const b = <p title={t(A.a)}>{rich('<b>Five</b>', { b })}</p>;",
      ),
    ).toEqual(['<b>Five</b>', 'Four', 'One', 'Three', 'Two']);
  });

  it('finds the words of pictures, which are literals too', () => {
    const collected = collectTexts([
      {
        path: 'src/pictures/a.ts',
        source:
          "const a = (words: Words) => words('{weight} left', { weight }) + words(over ? 'aft' : 'forward') + t('No text') + words(title);",
      },
    ]);
    expect([...collected.texts.keys()]).toEqual(['aft', 'forward', '{weight} left']);
    expect(collected.faults).toEqual(['src/pictures/a.ts:1: words(title) takes a literal']);
  });

  it('lets alone what only has the name of one', () => {
    expect(
      collectTexts([{ path: 'src/pane/a.ts', source: "const t = (a: string) => a; t('No text'); book.t('Neither');" }])
        .texts.size,
    ).toBe(0);
  });

  it.each([
    ['t(`${count} rows`)', 't(`${count} rows`) takes a text that stands there: a literal, or a choice of literals'],
    ["t('A ' + 'B')", "t('A ' + 'B') takes a text that stands there: a literal, or a choice of literals"],
    ['mark(label)', 'mark(label) takes a literal'],
    ["t('Rows: ')", '“Rows: ” begins or ends with a space: a text is a whole sentence, not a piece of one'],
    ['t("It isn\'t")', "“It isn't” has plain quotes: write “ ” and ’"],
    ["t('{count} of {all}', { count })", '“{count} of {all}” lacks the values all'],
    ["t('{count} rows', { count, all: 3 })", '“{count} rows” has no place for all'],
    ["t('{count rows', { count })", '“{count rows” is no ICU message: MALFORMED_ARGUMENT'],
    [
      "t('{count, plural, one {# row}}', { count })",
      '“{count, plural, one {# row}}” is no ICU message: MISSING_OTHER_CLAUSE',
    ],
  ])('refuses %s', (source, fault) => {
    expect(collect(source).faults).toEqual([`src/pane/a.tsx:2: ${fault}`]);
  });
});

describe('a translation', () => {
  it('is held against the texts', () => {
    expect(
      compareTranslation(['Undo', 'Redo', '{n} rows', 'Save'], {
        Undo: 'Zurück',
        Save: 'Sicher’n',
        '{n} rows': '{m} Zeilen',
        Gone: 'Weg',
      }),
    ).toEqual({
      lacks: ['Redo'],
      tooMany: ['Gone'],
      faults: ['“{n} rows” has the places {n}, its translation {m}'],
    });
    expect(compareTranslation(['A', 'B', 'C'], { A: '{a', B: ' ', C: "d'or" }).faults).toEqual([
      '“{a” is no ICU message: EXPECT_ARGUMENT_CLOSING_BRACE',
      '“B” is translated by nothing: leave it out',
      "“d'or” has a plain apostrophe: write ’",
    ]);
  });
});
