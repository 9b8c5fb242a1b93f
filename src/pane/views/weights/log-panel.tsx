/** What moved since: the dated log, drawn over time, and the differences of each component. */
import { Button, Select } from '@fluentui/react-components';
import { logPicture } from '../../../pictures';
import { logOf, movedSince } from '../../../project';
import { t } from '../../locale';
import { Figure } from '../../shared/picture';
import { DataTable } from './data-table';
import { figures, signed } from './weight-figures';
import { useWeightsStyles } from './styles';
import type { PanelProps } from './weights-store';

export function LogPanel({ store, state: { logOf: component, since }, model }: PanelProps) {
  const styles = useWeightsStyles();
  const { weight: written, unit, quantities } = figures(model.units);
  const entries = model.log?.entries ?? [];
  const dates = [...new Set(entries.map(({ date }) => date))].sort();
  const all = [...model.components, model.total];
  const logged = all.filter(({ name }) => logOf(entries, name).length > 0).map(({ name }) => name);
  const drawn = logged.includes(component) ? component : model.total.name;
  const points = logOf(entries, drawn);
  const from = since !== undefined && dates.includes(since) ? since : dates[0];
  const moved = from === undefined ? [] : movedSince(entries, all, from);
  const parts = moved.filter((one) => one.component !== model.total.name);
  const total = moved.find((one) => one.component === model.total.name);
  return (
    <>
      {dates.length === 0 && (
        <p className={styles.text}>
          {t(
            'A log keeps what each component weighed on a day, so that you see later what moved. It is a sheet of this workbook, Log, with a row a component and day.',
          )}
        </p>
      )}
      <div className={styles.line}>
        <Button
          size="small"
          appearance={dates.length === 0 ? 'primary' : 'secondary'}
          onClick={() => void store.logToday(model)}
        >
          {dates.includes(store.pane.today()) ? t('Log today’s weights again') : t('Add today’s weights to the log')}
        </Button>
      </div>
      {from !== undefined && (
        <>
          <Figure
            title={t('Over time')}
            draw={(options) =>
              logPicture(
                { name: drawn, points: points.map((point) => ({ ...point, id: point.date })), quantities },
                options,
              )
            }
            table={
              <DataTable
                caption={t('{component} over time, {unit}', { component: drawn, unit: unit('weight') })}
                columns={[t('Day, {unit}', { unit: unit('weight') }), t('Listed'), t('Forecast'), t('Budget')]}
                rows={points.map(({ date, weight, forecast, budget, note }) => ({
                  key: date,
                  head: note ? `${date} ${note}` : date,
                  cells: [written(weight), written(forecast), written(budget)],
                }))}
              />
            }
          >
            <div className={styles.line}>
              <Select
                size="small"
                className={styles.choose}
                aria-label={t('Weight of')}
                value={drawn}
                onChange={(_event, { value }) => store.view({ logOf: value })}
              >
                {[...logged].reverse().map((name) => (
                  <option key={name} value={name}>
                    {name === model.total.name ? t('Everything') : name}
                  </option>
                ))}
              </Select>
            </div>
          </Figure>
          <section className={styles.section} aria-label={t('What moved')}>
            <div className={styles.line}>
              <h2 className={styles.heading}>{t('What moved since')}</h2>
              <Select
                size="small"
                aria-label={t('What moved since')}
                value={from}
                onChange={(_event, { value }) => store.view({ since: value })}
              >
                {[...dates].reverse().map((date) => (
                  <option key={date}>{date}</option>
                ))}
              </Select>
            </div>
            <DataTable
              caption={t('What moved since {day}, {unit}', { day: from, unit: unit('weight') })}
              columns={[t('Component, {unit}', { unit: unit('weight') }), t('Then'), t('Now'), t('Change')]}
              rows={[...parts, ...(total ? [total] : [])].map((one) => ({
                key: one.component,
                head:
                  one.since === from
                    ? one.component
                    : t('{component} (since {day})', { component: one.component, day: one.since }),
                strong: one === total,
                cells: [written(one.before), written(one.now), signed(one.by, written)],
              }))}
            />
          </section>
        </>
      )}
    </>
  );
}
