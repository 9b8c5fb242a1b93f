/** How much ballast, and where, brings the loading inside. */
import { Field, Input, mergeClasses, Select } from '@fluentui/react-components';
import { useMemo, useState } from 'react';
import { ballastIntoEnvelope, judgeCase, type Airplane, type CaseResult } from '../../../core/balance';
import { fromInch, fromUnit, toInch, unitIn, type UnitSystem } from '../../../core/quantity';
import type { JudgedCase } from '../../../project';
import { t } from '../../locale';
import { readTypedCell } from '../../shared/field';
import { figuresIn, judgementText } from './balance-words';
import { useStyles } from './styles';

const OTHER = 'other';

export function BallastPanel({
  airplane,
  now,
  units,
}: {
  readonly airplane: Airplane;
  readonly now: JudgedCase;
  readonly units: UnitSystem;
}) {
  const styles = useStyles();
  const unit = unitIn('length', units);
  const [where, setWhere] = useState('0');
  const [typed, setTyped] = useState('');
  const read = readTypedCell('number', typed, { dimension: 'length', unit });
  const typedArm = 'cell' in read && typeof read.cell === 'number' ? fromUnit(read.cell, unit) : undefined;
  const arm = where === OTHER ? typedArm : airplane.stations[Number(where)]?.arm;
  return (
    <section className={styles.section} aria-labelledby="balance-ballast">
      <h2 id="balance-ballast" className={styles.heading}>
        {t('Ballast')}
      </h2>
      {now.result.firstOutside ? (
        <>
          <div className={styles.choice}>
            <Field size="small" label={t('Ballast at')} className={styles.choiceField}>
              <Select
                size="small"
                className={styles.input}
                value={where}
                onChange={(_event, { value }) => setWhere(value)}
              >
                {airplane.stations.map(({ name }, index) => (
                  <option key={index} value={String(index)}>
                    {name}
                  </option>
                ))}
                <option value={OTHER}>{t('another arm')}</option>
              </Select>
            </Field>
            {where === OTHER && (
              <Field
                size="small"
                label={t('Arm, {unit}', { unit: unit.sign })}
                className={styles.choiceField}
                validationState={'wrong' in read ? 'error' : 'none'}
                validationMessage={'wrong' in read ? read.wrong : undefined}
              >
                <Input
                  size="small"
                  className={mergeClasses(styles.input, styles.numericInput)}
                  value={typed}
                  inputMode="decimal"
                  autoComplete="off"
                  onChange={(_event, { value }) => setTyped(value)}
                />
              </Field>
            )}
          </div>
          <p className={styles.text} role="status" aria-label={t('Ballast needed')}>
            {arm === undefined ? (
              t('Type the arm at which ballast can go.')
            ) : (
              <Needed airplane={airplane} now={now} arm={arm} units={units} />
            )}
          </p>
        </>
      ) : (
        <p className={styles.text}>{t('None is needed for this loading.')}</p>
      )}
    </section>
  );
}

function Needed({
  airplane,
  now,
  arm,
  units,
}: {
  readonly airplane: Airplane;
  readonly now: JudgedCase;
  /** in */
  readonly arm: number;
  readonly units: UnitSystem;
}) {
  const say = figuresIn(units);
  const ballast = useMemo(() => ballastFor(airplane, now.loads, arm, units), [airplane, now, arm, units]);
  if (!ballast)
    return t(
      'No weight at {arm} brings this loading inside from take-off to landing. Change the load, or put ballast elsewhere.',
      { arm: say.arm(arm) },
    );
  const { takeoff, landing } = ballast.result;
  return t('{weight} at {arm} is the least. With it: take-off {takeoff}; landing {landing}.', {
    weight: say.weight(ballast.weight),
    arm: say.arm(arm),
    takeoff: judgementText(takeoff.judgement, say),
    landing: judgementText(landing.judgement, say),
  });
}

/** Ballast that keeps a loading inside from take-off to landing. */
interface Ballast {
  /** lb; whole tenths of the system's unit, rounded up */
  readonly weight: number;
  /** The loading with the ballast aboard. */
  readonly result: CaseResult;
}

/** Scales and bags of shot are read to a tenth of a pound, or of a kilogram. */
const STEPS = 10;
const MOST_STEPS = 500;

/**
 * The least ballast, in tenths of a pound or of a kilogram, at an arm (in) that brings the loading into the envelope from take-off
 * to landing; undefined where none does. Each step is the least that its worst point needs, so that no
 * lighter ballast is passed over. @internal
 */
export function ballastFor(
  airplane: Airplane,
  loads: readonly number[],
  arm: number,
  units: UnitSystem = 'in-lb',
): Ballast | undefined {
  let steps = 0;
  for (let tries = 0; tries < MOST_STEPS; tries++) {
    const weight = toInch(steps / STEPS, 'weight', units);
    const result = judgeCase(
      { ...airplane, stations: [...airplane.stations, { name: 'Ballast', arm, min: weight, max: weight }] },
      { name: '', loads: [...loads, weight] },
    );
    if (!result.firstOutside) return { weight, result };
    let needed = 0;
    for (const point of [result.takeoff, ...result.burn, result.landing]) {
      const more = ballastIntoEnvelope(airplane.envelope, point, arm);
      if (more === undefined) return undefined;
      needed = Math.max(needed, more);
    }
    // The slack keeps a whole number of steps from being rounded to one more.
    steps = Math.max(steps + 1, Math.ceil(fromInch(weight + needed, 'weight', units) * STEPS - 1e-6));
  }
  return undefined;
}
