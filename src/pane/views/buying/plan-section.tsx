/** The cutting plan of one material: asked for, watched, ended, shown. */
import { Button, Input, ProgressBar, Select } from '@fluentui/react-components';
import { useId } from 'react';
import { labelIn, type UnitSystem } from '../../../core/quantity';
import { PARTS, type CuttingTerms } from '../../../project';
import { t } from '../../locale';
import { cellText, readTypedCell, LabelledField, reasonId, useDraft } from '../../shared/field';
import { sayIn } from '../../shared/quantities';
import { useStore } from '../../shared/store';
import type { BuyingSheets } from './buying-sheets';
import type { BuyingStore } from './buying-store';
import { quantityText, sizeText, progressWords, type CostTerms } from './buying-words';
import { unsizedArea, type CuttingGroup } from './cutting-needs';
import { PlanResult } from './plan-result';
import { LONGEST_SECONDS, type PlanStore } from './plan-store';
import { useStyles } from './styles';

interface Props {
  readonly store: PlanStore;
  readonly buying: BuyingStore;
  readonly sheets: BuyingSheets;
}

export function PlanSection({ store, buying, sheets }: Props) {
  const styles = useStyles();
  return (
    <section className={styles.section} aria-labelledby="buying-plan">
      <h2 id="buying-plan" className={styles.heading}>
        {t('Cutting plan')}
      </h2>
      {sheets.groups.length === 0 ? (
        <p className={styles.text}>{noSizeWords(sheets.units)}</p>
      ) : (
        <Planning store={store} buying={buying} sheets={sheets} />
      )}
    </section>
  );
}

function noSizeWords(units: UnitSystem): string {
  const label = (wanted: 'cutLength' | 'cutWidth'): string =>
    labelIn(PARTS.columns.find(({ key }) => key === wanted)!.label, units);
  return t(
    'No part has the size that it is cut from. Give the sheet Parts the columns {length} and, for sheet, {width}: the rectangle of one part, its length along the grain.',
    { length: label('cutLength'), width: label('cutWidth') },
  );
}

function Planning({ store, buying, sheets }: Props) {
  const styles = useStyles();
  const id = useId();
  const { phase, seconds, progress, plan, made, wrong, wrongLanguage } = useStore(store);
  const group = store.groupOf(sheets)!;
  const running = phase === 'running' || phase === 'cancelling';
  const terms: CostTerms = {
    priced: store.priced,
    kind: group.kind,
    currency: sheets.list.currency,
    say: sayIn(sheets.units),
  };
  return (
    <>
      <div className={styles.fields}>
        <div className={styles.field}>
          <label htmlFor={`${id}-group`} className={styles.label}>
            {t('Material and gauge')}
          </label>
          <Select
            id={`${id}-group`}
            size="small"
            className={styles.input}
            value={group.name}
            disabled={running}
            onChange={(_event, { value }) => store.choose(value)}
          >
            {sheets.groups.map(({ name }) => (
              <option key={name}>{name}</option>
            ))}
          </Select>
        </div>
        <SecondsField store={store} seconds={seconds} disabled={running} />
      </div>
      <p className={styles.quiet}>
        {countWords(group, sheets.units)} {cuttingWords(sheets.cutting, sheets.units)}{' '}
        {t(
          'Leftovers on the sheet Stock are used first. The plan covers all the pieces, including those for which the sheet is already bought.',
        )}
      </p>
      <div className={styles.buttons}>
        {running ? (
          <Button size="small" disabledFocusable={phase === 'cancelling'} onClick={() => store.cancel()}>
            {t('End now with the best so far')}
          </Button>
        ) : (
          <Button size="small" appearance="primary" onClick={() => void store.make(sheets)}>
            {plan ? t('Plan again') : t('Make the plan')}
          </Button>
        )}
      </div>
      {running && (
        <>
          <ProgressBar
            aria-label={t('Cutting plan')}
            {...(progress ? { value: Math.min(1, progress.seconds / seconds) } : {})}
          />
          <p className={styles.quiet}>{progressWords(progress, terms)}</p>
        </>
      )}
      <div role="status">
        {phase === 'done' && <span className={styles.hidden}>{t('The cutting plan is ready.')}</span>}
      </div>
      <div role="alert" className={styles.wrong} lang={wrongLanguage}>
        {wrong}
      </div>
      {plan && (
        <PlanResult
          store={store}
          buying={buying}
          plan={plan}
          made={made.get(group.name)}
          group={group}
          standing={store.standing(sheets)}
          terms={terms}
        />
      )}
    </>
  );
}

function countWords(group: CuttingGroup, units: UnitSystem): string {
  const pieces = group.parts.reduce((sum, { quantity }) => sum + Math.ceil(quantity), 0);
  const count = group.unsized.length;
  const area = unsizedArea(group);
  const all = t('{parts, plural, one {# part} other {# parts}}, {pieces, plural, one {# piece} other {# pieces}}.', {
    parts: group.parts.length,
    pieces,
  });
  if (count === 0) return all;
  const rest =
    area > 0
      ? t(
          '{count, plural, one {# row has no cut size and is in no plan} other {# rows have no cut size and are in no plan}}, counted by area alone: {area}.',
          { count, area: quantityText(area, 'area', units) },
        )
      : t(
          '{count, plural, one {# row has no cut size and is in no plan.} other {# rows have no cut size and are in no plan.}}',
          { count },
        );
  return `${all} ${rest}`;
}

function cuttingWords({ kerf, turn }: CuttingTerms, units: UnitSystem): string {
  const values = { kerf: sizeText(kerf, undefined, sayIn(units)) };
  return turn
    ? t('Kerf {kerf}; parts may be turned: the sheet Buying changes that.', values)
    : t('Kerf {kerf}; lengths lie along the grain: the sheet Buying changes that.', values);
}

/** How long the search for a plan may take: read when it is left or by Enter, Escape lets go. */
function SecondsField({
  store,
  seconds,
  disabled,
}: {
  readonly store: PlanStore;
  readonly seconds: number;
  readonly disabled: boolean;
}) {
  const styles = useStyles();
  const id = useId();
  const { draft, refused, type, leave, onKeyDown } = useDraft((text) => {
    const typed = readTypedCell('number', text);
    if ('wrong' in typed) return typed.wrong;
    if (typeof typed.cell !== 'number' || typed.cell < 1 || typed.cell > LONGEST_SECONDS)
      return t('“{typed}” is not a time. Type seconds from 1 to {longest, number}', {
        typed: text,
        longest: LONGEST_SECONDS,
      });
    store.allow(typed.cell);
    return undefined;
  });
  return (
    <LabelledField id={id} label={t('Time limit (s)')} wrong={refused}>
      <Input
        id={id}
        size="small"
        className={styles.input}
        value={draft ?? cellText('number', seconds)}
        inputMode="decimal"
        autoComplete="off"
        disabled={disabled}
        aria-invalid={refused === undefined ? undefined : true}
        aria-describedby={refused === undefined ? undefined : reasonId(id)}
        onChange={(_event, { value }) => type(value)}
        onBlur={leave}
        onKeyDown={onKeyDown}
      />
    </LabelledField>
  );
}
