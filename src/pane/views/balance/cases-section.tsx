/** The saved loading cases over the envelope, and the worst that the stations' ranges allow. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { useCallback, useMemo } from 'react';
import { reachableOutline } from '../../../core/balance';
import { envelopePicture, type PictureOptions } from '../../../pictures';
import { percentOfChord } from '../../../report';
import {
  clearCaseEdits,
  loadEdits,
  type BalanceModel,
  type CasesSheet,
  type JudgedBalance,
  type JudgedCase,
} from '../../../project';
import { t } from '../../locale';
import { Picture } from '../../shared/picture';
import { Problems } from '../../shared/cell-list';
import { ScrollTable, TableHead } from '../../shared/scroll-table';
import type { BalanceStore } from './balance-store';
import { figuresIn } from './balance-numbers';
import { pictureCase, marginsText, verdictText } from './verdict-words';
import { rebuiltCases } from './rebuilt-cases';
import { SaveCase } from './save-case';
import { useStyles } from './styles';
import { LimitsFrom } from './verdict';
import { WorstSection } from './worst-section';

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
  const toPercent = useMemo(() => percentOfChord(model), [model]);
  const draw = useCallback(
    (options: PictureOptions) =>
      envelopePicture(
        {
          envelope: airplane.envelope,
          cases: cases.map((one) => pictureCase(one, model.units)),
          reach: reachableOutline(airplane),
          title: t('Saved cases on the envelope'),
          quantities: figuresIn(model.units).quantities,
          ...(toPercent ? { toPercent } : {}),
        },
        options,
      ),
    [airplane, cases, toPercent, model],
  );
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
              <Picture draw={draw} onPick={pick} />
            </div>
          </>
        )}
        {judged.now && <SaveCase store={store} casesSheet={casesSheet} loads={judged.now.loads} />}
      </section>
      <WorstSection store={store} model={model} judged={judged} casesSheet={casesSheet} />
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
