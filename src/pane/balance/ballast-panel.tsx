/** How much ballast, and where, brings the loading inside. */
import { Field, Input, mergeClasses, Select } from '@fluentui/react-components';
import { useMemo, useState } from 'react';
import type { Airplane } from '../../core/balance';
import { caseWords, type JudgedCase } from '../../workbook';
import { readTyped } from '../cell-text';
import { ballastFor } from './ballast';
import { inches, pounds } from './numbers';
import { useStyles } from './styles';

const OTHER = 'other';

export function BallastPanel({ airplane, now }: { readonly airplane: Airplane; readonly now: JudgedCase }) {
  const styles = useStyles();
  const [where, setWhere] = useState('0');
  const [typed, setTyped] = useState('');
  const read = readTyped('number', typed);
  const station = airplane.stations[Number(where)];
  const arm = where === OTHER ? ('cell' in read && typeof read.cell === 'number' ? read.cell : undefined) : station?.arm;
  const ballast = useMemo(() => (arm === undefined || !now.result.firstOutside ? undefined : ballastFor(airplane, now.loads, arm)), [airplane, now, arm]);
  if (!now.result.firstOutside) {
    return (
      <section className={styles.section} aria-labelledby="balance-ballast">
        <h2 id="balance-ballast" className={styles.heading}>
          Ballast
        </h2>
        <p className={styles.text}>None is needed for this loading.</p>
      </section>
    );
  }
  return (
    <section className={styles.section} aria-labelledby="balance-ballast">
      <h2 id="balance-ballast" className={styles.heading}>
        Ballast
      </h2>
      <div className={styles.choice}>
        <Field size="small" label="Ballast at" className={styles.choiceField}>
          <Select size="small" className={styles.input} value={where} onChange={(_event, { value }) => setWhere(value)}>
            {airplane.stations.map(({ name }, index) => (
              <option key={index} value={String(index)}>
                {name}
              </option>
            ))}
            <option value={OTHER}>another arm</option>
          </Select>
        </Field>
        {where === OTHER && (
          <Field size="small" label="Arm, in" className={styles.choiceField} validationState={'wrong' in read ? 'error' : 'none'} validationMessage={'wrong' in read ? read.wrong : undefined}>
            <Input size="small" className={mergeClasses(styles.input, styles.numericInput)} value={typed} inputMode="decimal" autoComplete="off" onChange={(_event, { value }) => setTyped(value)} />
          </Field>
        )}
      </div>
      <p className={styles.text} role="status" aria-label="Ballast needed">
        {arm === undefined
          ? 'Type the arm at which ballast can go.'
          : ballast
            ? `${pounds(ballast.weight)} at ${inches(arm)} is the least. With it: take-off ${caseWords(ballast.result).takeoff}; landing ${caseWords(ballast.result).landing}.`
            : `No weight at ${inches(arm)} brings this loading inside from take-off to landing: load it otherwise, or ballast elsewhere.`}
      </p>
    </section>
  );
}
