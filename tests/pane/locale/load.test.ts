import { describe, expect, it } from 'vitest';
import { bestOf, loadLocale } from '../../../src/pane/locale/locale';

describe('the locale of a host’s tags', () => {
  it.each([
    ['de', 'de'],
    ['de-CH', 'de'],
    ['DE_at', 'de'],
    ['pt-BR', 'pt-BR'],
    ['pt-PT', 'pt'],
    ['zh-Hant-TW', 'zh-Hant'],
    ['zh-CN', undefined],
    ['den', undefined],
    ['', undefined],
  ])('%s has the texts of %s', (wanted, found) => expect(bestOf(wanted, ['de', 'pt', 'pt-BR', 'zh-Hant'])).toBe(found));

  it('is English with the numbers of the place where there is no translation', async () => {
    expect(await loadLocale('xx-YY', 'fr-FR')).toEqual({ language: 'en', numbers: 'fr-FR' });
    expect(await loadLocale('sv-SE')).toEqual({ language: 'en', numbers: 'sv-SE' });
  });

  it('is English throughout where the tags are none', async () => {
    expect(await loadLocale('', 'not a tag')).toEqual({ language: 'en', numbers: 'en-US' });
  });
});
