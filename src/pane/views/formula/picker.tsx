/** All functions by family, found by any word of what they are and take. */
import { Input, mergeClasses, Select } from '@fluentui/react-components';
import { useEffect, useId, useRef, type KeyboardEvent } from 'react';
import { FAMILIES, type Definition, type Family } from '../../../functions';
import { t } from '../../locale';
import { useStore } from '../../shared/store';
import { FAMILY_WORDS, isDrawn, search } from './definitions';
import { Thumbnail } from './drawing';
import type { InsertStore } from './insert-store';
import { useStyles } from './styles';

interface Group {
  readonly id: string;
  readonly title: string;
  readonly items: readonly Definition[];
}

/** The functions by family. Results of a search are one list instead, the best first. */
function groupsOf(query: string, family: Family | '', recent: readonly Definition[]): Group[] {
  const found = search(query, family);
  if (query.trim() !== '')
    return [
      {
        id: 'found',
        title: t('{count, plural, =0 {No function found} one {# function found} other {# functions found}}', {
          count: found.length,
        }),
        items: found,
      },
    ];
  const families = FAMILIES.filter((one) => family === '' || family === one).map((one): Group => ({
    id: one,
    title: t(FAMILY_WORDS[one]),
    items: found.filter((definition) => definition.family === one),
  }));
  return family === '' && recent.length > 0
    ? [{ id: 'recent', title: t('Used last'), items: recent }, ...families]
    : families;
}

export function Picker({ store }: { readonly store: InsertStore }) {
  const styles = useStyles();
  const { query, family, recent, last } = useStore(store);
  const id = useId();
  const list = useRef<HTMLDivElement>(null);
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (last) list.current?.querySelector<HTMLElement>(`[data-pick="${CSS.escape(last)}"]`)?.focus();
  }, [last]);

  const groups = groupsOf(query, family, recent);
  const first = groups.find(({ items }) => items.length > 0)?.items[0];
  const items = (): HTMLElement[] => [...(list.current?.querySelectorAll<HTMLElement>('[data-pick]') ?? [])];
  const onSearchKey = (event: KeyboardEvent): void => {
    if (event.key === 'Enter' && query.trim() !== '' && first) store.open(first);
    else if (event.key === 'ArrowDown') items()[0]?.focus();
    else if (event.key === 'Escape' && query !== '') store.look('', family);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const onListKey = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const all = items();
    const at = all.indexOf(event.target as HTMLElement);
    if (at < 0) return;
    const to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: all.length - 1 }[event.key];
    if (event.key === 'Escape' || to === -1) input.current?.focus();
    else if (to === undefined) return;
    else all[to]?.focus();
    event.preventDefault();
  };
  return (
    <>
      <div className={styles.bar}>
        <Input
          type="search"
          size="small"
          className={styles.search}
          input={{ ref: input }}
          aria-label={t('Search the functions')}
          aria-describedby={`${id}-what`}
          placeholder={t('Search: channel, rivet, flange …')}
          value={query}
          autoComplete="off"
          spellCheck={false}
          onChange={(_event, { value }) => store.look(value, family)}
          onKeyDown={onSearchKey}
        />
        <Select
          size="small"
          className={styles.family}
          aria-label={t('Family')}
          value={family}
          onChange={(_event, { value }) => store.look(query, value as Family | '')}
        >
          <option value="">{t('All families')}</option>
          {FAMILIES.map((one) => (
            <option key={one} value={one}>
              {t(FAMILY_WORDS[one])}
            </option>
          ))}
        </Select>
      </div>
      <div ref={list} className={styles.body} tabIndex={-1} onKeyDown={onListKey}>
        <p id={`${id}-what`} className={mergeClasses(styles.text, styles.quiet)}>
          {t(
            'Choose a function and fill it in with numbers or cells. It is drawn and computed as you type, and inserted in the selected cell.',
          )}
        </p>
        {groups.map((group, index) => (
          <Functions
            key={group.id}
            group={group}
            isFirst={index === 0}
            onPick={(definition) => store.open(definition)}
          />
        ))}
        {!first && (
          <p className={styles.text}>
            {t(
              'No function has these words in its name, its summary or what it takes. A shorter word finds more: “weight”, “area”, “bend”.',
            )}
          </p>
        )}
      </div>
    </>
  );
}

function Functions({
  group: { title, items },
  isFirst,
  onPick,
}: {
  readonly group: Group;
  readonly isFirst: boolean;
  onPick(definition: Definition): void;
}) {
  const styles = useStyles();
  const id = useId();
  return (
    <section aria-labelledby={id}>
      <h2 id={id} className={styles.subheading}>
        {title}
      </h2>
      <ul className={styles.list} aria-labelledby={id}>
        {items.map((definition, index) => (
          <li key={definition.name}>
            <button
              type="button"
              data-pick={definition.name}
              tabIndex={isFirst && index === 0 ? 0 : -1}
              className={mergeClasses(styles.item, isDrawn(definition) && styles.withThumbnail)}
              onClick={() => onPick(definition)}
            >
              {isDrawn(definition) && <Thumbnail name={definition.name} />}
              <span>
                <span className={styles.name}>{definition.name}</span>
                <span className={styles.summary}>{definition.summary}</span>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
