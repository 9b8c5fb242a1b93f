/** The saved loading cases over the envelope, and the worst that the stations' ranges allow. */
import { Button, Field, Input, mergeClasses } from '@fluentui/react-components';
import { useState, type FormEvent } from 'react';
import { reachableOutline, type WorstLoading } from '../../../core/balance';
import { sameName } from '../../../core/names';
import { fromUnit, inUnit, unitIn, type Unit } from '../../../core/quantity';
import {
  caseEdits,
  clearCaseEdits,
  loadEdits,
  type BalanceModel,
  type CasesSheet,
  type JudgedBalance,
  type JudgedCase,
} from '../../../project';
import { decimalSign, t } from '../../locale';
import { Problems } from '../../shared/cell-list';
import { ScrollTable, TableHead } from '../../shared/scroll-table';
import type { BalanceStore } from './balance-store';
import { figuresIn, judgementText, marginsText, verdictText } from './balance-words';
import { rebuiltCases } from './edits';
import { EnvelopePicture, LimitsFrom } from './envelope-section';
import { useStyles } from './styles';

export function CasesSection({
  store,
  model,
  casesSheet,
  judged,
}: {
  readonly store: BalanceStore;
  readonly model: BalanceModel;
  readonly casesSheet: CasesSheet;
  readonly judged: JudgedBalance;
}) {
  const styles = useStyles();
  const { cases, airplane } = judged;
  const { sheet, header, columns } = casesSheet.form;
  const pick = (id: string): void => {
    const first = columns.case ?? 0;
    void store.select({
      sheet,
      row: Number(id),
      column: first,
      rows: 1,
      columns: Math.max(first, ...casesSheet.stationColumns.flatMap((column) => column ?? [])) - first + 1,
    });
  };
  return (
    <>
      <Columns store={store} model={model} casesSheet={casesSheet} />
      <section className={styles.section} aria-labelledby="balance-saved">
        <h2 id="balance-saved" className={styles.heading}>
          {headline(cases)}
        </h2>
        {cases.length === 0 ? (
          <p className={styles.text}>
            {t(
              'Type loads under Loading and save them as a case, or fill a row of the sheet {sheet} below row {row, number}.',
              { sheet, row: header + 1 },
            )}
          </p>
        ) : (
          <>
            <CasesTable store={store} model={model} casesSheet={casesSheet} cases={cases} />
            <LimitsFrom model={model} />
            <div className={styles.picture}>
              <EnvelopePicture
                model={model}
                envelope={airplane.envelope}
                cases={cases}
                reach={reachableOutline(airplane)}
                title={t('Saved cases on the envelope')}
                onPick={pick}
              />
            </div>
          </>
        )}
        {judged.now && <SaveCase store={store} casesSheet={casesSheet} loads={judged.now.loads} />}
      </section>
      <WorstSection store={store} model={model} judged={judged} />
      <Problems store={store} problems={model.problems} />
    </>
  );
}

/** A station that has been added since the sheet of cases was made. */
function Columns({
  store,
  model,
  casesSheet,
}: {
  readonly store: BalanceStore;
  readonly model: BalanceModel;
  readonly casesSheet: CasesSheet;
}) {
  const styles = useStyles();
  const lacking = model.stations
    .filter((_station, index) => casesSheet.stationColumns[index] === undefined)
    .map(({ name }) => name);
  if (lacking.length === 0) return null;
  const edits = rebuiltCases(model, casesSheet, store.state.sheets);
  const { sheet } = casesSheet.form;
  return (
    <section className={styles.section} aria-labelledby="balance-columns">
      <h2 id="balance-columns" className={styles.heading}>
        {t('No column for {stations}', { stations: lacking.join(', ') })}
      </h2>
      {typeof edits === 'string' ? (
        <p className={styles.text}>{edits}</p>
      ) : (
        <>
          <p className={styles.text}>
            {t(
              'The sheet {sheet} can be rewritten with a column for every station. Its cases are kept, with 0 for new stations.',
              { sheet },
            )}
          </p>
          <Button
            size="small"
            onClick={() =>
              void store.change(
                t('Rewrite the sheet {sheet}', { sheet }),
                edits,
                t('The sheet {sheet} has a column for every station now.', { sheet }),
              )
            }
          >
            {t('Add the columns')}
          </Button>
        </>
      )}
    </section>
  );
}

function headline(cases: readonly JudgedCase[]): string {
  const count = cases.length;
  if (count === 0) return t('No case saved yet');
  const outside = cases.filter(({ result }) => result.firstOutside).length;
  const overloaded = cases.filter(({ result }) => !result.firstOutside && !result.inside).length;
  if (outside > 0 && overloaded > 0)
    return t(
      '{count, plural, one {# saved case} other {# saved cases}}, {outside, number} outside, {overloaded, number} with a station out of its range',
      { count, outside, overloaded },
    );
  if (outside > 0)
    return t('{count, plural, one {# saved case} other {# saved cases}}, {outside, number} outside', {
      count,
      outside,
    });
  if (overloaded > 0)
    return t(
      '{count, plural, one {# saved case} other {# saved cases}}, {overloaded, number} with a station out of its range',
      { count, overloaded },
    );
  return t('{count, plural, one {# saved case} other {# saved cases}}, all inside', { count });
}

const verdictWord = ({ result }: JudgedCase): string =>
  result.firstOutside ? t('outside') : result.inside ? t('inside') : t('station');

function CasesTable({
  store,
  model,
  casesSheet,
  cases,
}: {
  readonly store: BalanceStore;
  readonly model: BalanceModel;
  readonly casesSheet: CasesSheet;
  readonly cases: readonly JudgedCase[];
}) {
  const styles = useStyles();
  const say = figuresIn(model.units);
  const load = ({ name, loads }: JudgedCase): void => {
    if (model.loading)
      void store.change(
        t('Load the case {name}', { name }),
        loadEdits(model.loading, loads),
        t('Put the case {name} onto the sheet {sheet}.', { name, sheet: model.loading.form.sheet }),
      );
  };
  const remove = ({ name, row }: JudgedCase): void => {
    if (row !== undefined)
      void store.change(
        t('Remove the case {name}', { name }),
        clearCaseEdits(casesSheet, row),
        t('Removed the case {name}. Undo brings it back.', { name }),
      );
  };
  return (
    <ScrollTable className={styles.table}>
      <colgroup>
        <col />
        <col style={{ width: '84px' }} />
      </colgroup>
      <TableHead heads={[t('Case'), t('Verdict')]} />
      {cases.map((one) => {
        const { name, row, result } = one;
        const { takeoff, landing } = result;
        const takeoffAt = { weight: say.weight(takeoff.weight), arm: say.arm(takeoff.arm) };
        return (
          <tbody key={row} data-item="">
            <tr>
              <th scope="row">{name}</th>
              <td>
                <span className={styles.word}>{verdictWord(one)}</span>
              </td>
            </tr>
            <tr>
              <td colSpan={2} data-below="">
                <span className={styles.note}>
                  {landing.weight === takeoff.weight
                    ? t('Take-off {weight} at {arm}', takeoffAt)
                    : t('Take-off {weight} at {arm}, landing {landing} at {landingArm}', {
                        ...takeoffAt,
                        landing: say.weight(landing.weight),
                        landingArm: say.arm(landing.arm),
                      })}
                </span>
                <span className={mergeClasses(styles.note, !result.inside && styles.wrong)}>
                  {result.inside
                    ? t('at take-off {margins}', { margins: marginsText(takeoff.judgement, say) })
                    : verdictText(result, say)}
                </span>
                <div className={styles.belowLine}>
                  <span className={styles.grow} />
                  <Button
                    size="small"
                    appearance="subtle"
                    onClick={() => load(one)}
                    aria-label={t('Load it: the case {name}', { name })}
                  >
                    {t('Load it')}
                  </Button>
                  <Button
                    size="small"
                    appearance="subtle"
                    onClick={() => remove(one)}
                    aria-label={t('Remove the case {name}', { name })}
                  >
                    {t('Remove')}
                  </Button>
                </div>
              </td>
            </tr>
          </tbody>
        );
      })}
    </ScrollTable>
  );
}

/** The worst loadings that the stations' ranges allow: most forward and aft, nearest each limit, lightest, heaviest. */
function WorstSection({
  store,
  model,
  judged: { worst, allInside },
}: {
  readonly store: BalanceStore;
  readonly model: BalanceModel;
  readonly judged: JudgedBalance;
}) {
  const styles = useStyles();
  // Where the decimals have a comma, a comma between numbers would be read as one.
  const separator = decimalSign() === ',' ? '; ' : ', ';
  const say = figuresIn(model.units);
  const rows: readonly (readonly [string, WorstLoading | undefined])[] = [
    [t('Most forward'), worst.forward],
    [t('Most aft'), worst.aft],
    [t('Nearest the forward limit'), worst.forwardMargin],
    [t('Nearest the aft limit'), worst.aftMargin],
    [t('Lightest'), worst.lightest],
    [t('Heaviest'), worst.heaviest],
  ];
  const load = (label: string, { loads }: WorstLoading): void => {
    if (!model.loading) return;
    const { form } = model.loading;
    const unit = form.units.load ?? unitIn('weight', model.units);
    void store.change(
      t('Load: {loading}', { loading: label }),
      loadEdits(
        model.loading,
        loads.map((one) => toTenth(one, unit)),
      ),
      t('Put the loading “{loading}” onto the sheet {sheet}.', { loading: label, sheet: form.sheet }),
    );
  };
  return (
    <section className={styles.section} aria-labelledby="balance-worst">
      <h2 id="balance-worst" className={styles.heading}>
        {allInside ? t('Worst that the ranges allow: all inside') : t('Worst that the ranges allow: some outside')}
      </h2>
      <p className={styles.text}>
        {t(
          'The worst of every load between least and most at every station, fuel included. Narrow a station’s range under Loading if the airplane is never loaded that way.',
        )}
      </p>
      <ScrollTable className={styles.table}>
        <colgroup>
          <col />
          <col style={{ width: '84px' }} />
        </colgroup>
        <TableHead heads={[t('Loading'), t('Verdict')]} />
        {rows.map(([label, loading]) => (
          <tbody key={label} data-item="">
            <tr>
              <th scope="row">{label}</th>
              <td>
                {loading && (
                  <span className={styles.word}>{loading.judgement.inside ? t('inside') : t('outside')}</span>
                )}
              </td>
            </tr>
            <tr>
              <td colSpan={2} data-below="">
                {loading ? (
                  <>
                    <span className={styles.note}>
                      {t('{weight} at {arm}: {loads} {unit}', {
                        weight: say.weight(loading.weight),
                        arm: say.arm(loading.arm),
                        loads: model.stations
                          .map(({ name }, index) => `${name} ${say.plain(loading.loads[index] ?? 0)}`)
                          .join(separator),
                        unit: say.unit('weight'),
                      })}
                    </span>
                    <span className={mergeClasses(styles.note, !loading.judgement.inside && styles.wrong)}>
                      {loading.judgement.inside
                        ? marginsText(loading.judgement, say)
                        : judgementText(loading.judgement, say)}
                    </span>
                    <div className={styles.belowLine}>
                      <span className={styles.grow} />
                      <Button
                        size="small"
                        appearance="subtle"
                        onClick={() => load(label, loading)}
                        aria-label={t('Load it: {loading}', { loading: label })}
                      >
                        {t('Load it')}
                      </Button>
                    </div>
                  </>
                ) : (
                  t('None within the weights of the envelope.')
                )}
              </td>
            </tr>
          </tbody>
        ))}
      </ScrollTable>
    </section>
  );
}

/** Nobody loads to more than a tenth of a pound or of a kilogram; a round number of the column's unit stays what it is. */
const toTenth = (load: number, unit: Unit): number => fromUnit(Math.round(inUnit(load, unit) * 10) / 10, unit);

/** Keeps a loading as a case under a name. */
export function SaveCase({
  store,
  casesSheet,
  loads,
}: {
  readonly store: BalanceStore;
  readonly casesSheet: CasesSheet;
  readonly loads: readonly number[];
}) {
  const styles = useStyles();
  const [name, setName] = useState('');
  const known = casesSheet.cases.some((one) => sameName(one.name, name));
  const save = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const kept = name.trim();
    if (kept === '') return store.tell('failed', t('Give the case a name first.'));
    const wrong = await store.change(
      t('Save the case {name}', { name: kept }),
      caseEdits(casesSheet, kept, loads),
      known ? t('Replaced the case {name}.', { name: kept }) : t('Saved the case {name}.', { name: kept }),
    );
    if (wrong === undefined) setName('');
  };
  return (
    <form className={styles.choice} onSubmit={(event) => void save(event)} noValidate>
      <Field
        size="small"
        label={t('Save the loads now as a case named')}
        className={styles.grow}
        hint={known ? t('A case has this name. It will be replaced.') : undefined}
      >
        <Input
          size="small"
          className={styles.input}
          value={name}
          autoComplete="off"
          onChange={(_event, { value }) => setName(value)}
        />
      </Field>
      <Button size="small" type="submit">
        {t('Save case')}
      </Button>
    </form>
  );
}
