/** The saved loading cases over the envelope, and the worst that the stations' ranges allow. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { useCallback, useMemo } from 'react';
import { reachableOutline } from '../../core/balance';
import { envelopePicture, type PictureOptions } from '../../pictures';
import { envelopeCase, percentOfChord } from '../../report';
import { clearCaseEdits, loadEdits, type BalanceModel, type CasesSheet, type JudgedBalance, type JudgedCase } from '../../workbook';
import { Picture } from '../picture';
import { Problems } from '../problems';
import type { BalanceStore } from './balance-store';
import { inches, pounds } from './numbers';
import { rebuiltCases } from './rebuilt-cases';
import { SaveCase } from './save-case';
import { useStyles } from './styles';
import { LimitsFrom } from './verdict';
import { WorstSection } from './worst-section';

export function CasesSection({ store, model, casesSheet, judged }: { readonly store: BalanceStore; readonly model: BalanceModel; readonly casesSheet: CasesSheet; readonly judged: JudgedBalance }) {
  const styles = useStyles();
  const { cases, airplane } = judged;
  const toPercent = useMemo(() => percentOfChord(model), [model]);
  const draw = useCallback(
    (options: PictureOptions) => envelopePicture({ envelope: airplane.envelope, cases: cases.map(envelopeCase), reach: reachableOutline(airplane), title: 'Saved cases over the envelope', ...(toPercent ? { toPercent } : {}) }, options),
    [airplane, cases, toPercent],
  );
  const { sheet, header, columns } = casesSheet.form;
  const pick = (id: string): void => {
    const first = columns.case ?? 0;
    void store.select({ sheet, row: Number(id), column: first, rows: 1, columns: Math.max(first, ...casesSheet.stationColumns.flatMap((column) => column ?? [])) - first + 1 });
  };
  return (
    <>
      <Columns store={store} model={model} casesSheet={casesSheet} />
      <section className={styles.section} aria-labelledby="balance-saved">
        <h2 id="balance-saved" className={styles.heading}>
          {headline(cases)}
        </h2>
        {cases.length === 0 ? (
          <p className={styles.text}>Type loads under Loading and save them as a case, or fill a row of the sheet {sheet} below row {header + 1}.</p>
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
function Columns({ store, model, casesSheet }: { readonly store: BalanceStore; readonly model: BalanceModel; readonly casesSheet: CasesSheet }) {
  const styles = useStyles();
  const lacking = model.stations.filter((_station, index) => casesSheet.stationColumns[index] === undefined).map(({ name }) => name);
  if (lacking.length === 0) return null;
  const edits = rebuiltCases(model, casesSheet, store.state.sheets);
  const { sheet } = casesSheet.form;
  return (
    <section className={styles.section} aria-labelledby="balance-columns">
      <h2 id="balance-columns" className={styles.heading}>
        No column for {lacking.join(', ')}
      </h2>
      {typeof edits === 'string' ? (
        <p className={styles.text}>{edits}</p>
      ) : (
        <>
          <p className={styles.text}>The sheet {sheet} can be written anew with a column for every station. Its cases are kept, with 0 where they had none.</p>
          <Button size="small" onClick={() => void store.change(`Write the sheet ${sheet} anew`, edits, `The sheet ${sheet} has a column for every station now.`)}>
            Add the columns
          </Button>
        </>
      )}
    </section>
  );
}

function headline(cases: readonly JudgedCase[]): string {
  if (cases.length === 0) return 'No case saved yet';
  const outside = cases.filter(({ result }) => result.firstOutside).length;
  const overloaded = cases.filter(({ result }) => !result.firstOutside && !result.inside).length;
  const words = [...(outside > 0 ? [`${outside} outside`] : []), ...(overloaded > 0 ? [`${overloaded} with a station out of its range`] : [])];
  return `${cases.length} saved ${cases.length === 1 ? 'case' : 'cases'}, ${words.join(', ') || 'all inside'}`;
}

const verdictWord = ({ result }: JudgedCase): string => (result.firstOutside ? 'outside' : result.inside ? 'inside' : 'station');

function CasesTable({ store, model, casesSheet, cases }: { readonly store: BalanceStore; readonly model: BalanceModel; readonly casesSheet: CasesSheet; readonly cases: readonly JudgedCase[] }) {
  const styles = useStyles();
  const load = (one: JudgedCase): void => {
    if (model.loading) void store.change(`Load the case ${one.name}`, loadEdits(model.loading, one.loads), `Put the case ${one.name} onto the sheet ${model.loading.form.sheet}.`);
  };
  const remove = ({ name, row }: JudgedCase): void => {
    if (row !== undefined) void store.change(`Remove the case ${name}`, clearCaseEdits(casesSheet, row), `Removed the case ${name}. Undo brings it back.`);
  };
  return (
    <table className={styles.table}>
      <colgroup>
        <col />
        <col style={{ width: '84px' }} />
      </colgroup>
      <thead>
        <tr>
          <th scope="col">Case</th>
          <th scope="col">Verdict</th>
        </tr>
      </thead>
      {cases.map((one) => {
        const { name, row, result, words } = one;
        const { takeoff, landing } = result;
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
                  Take-off {pounds(takeoff.weight)} at {inches(takeoff.arm)}
                  {landing.weight !== takeoff.weight && `, landing ${pounds(landing.weight)} at ${inches(landing.arm)}`}
                </span>
                <span className={mergeClasses(styles.note, !result.inside && styles.wrong)}>{result.inside ? words.takeoff.replace(/^inside, /, 'at take-off ') : words.verdict}</span>
                <div className={styles.belowLine}>
                  <span className={styles.grow} />
                  <Button size="small" appearance="subtle" onClick={() => load(one)} aria-label={`Load it: the case ${name}`}>
                    Load it
                  </Button>
                  <Button size="small" appearance="subtle" onClick={() => remove(one)} aria-label={`Remove the case ${name}`}>
                    Remove
                  </Button>
                </div>
              </td>
            </tr>
          </tbody>
        );
      })}
    </table>
  );
}
