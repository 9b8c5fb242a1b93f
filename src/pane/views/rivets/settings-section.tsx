/** What the comparison is computed from: minutes, money, tools, the makers' figures. The workbook holds it. */
import { Button } from '@fluentui/react-components';
import { DEFAULT_TERMS } from '../../../core/rivet-choice';
import {
  COUNT_RULES,
  OPTION_LIST,
  RIVET_FACTS,
  RIVET_OPTIONS_SHEET,
  SHEAR_LIST,
  TOOL_LIST,
  type RivetFact,
} from '../../../project';
import { t } from '../../locale';
import { OptionField } from './option-field';
import { ListEditor } from './list-editor';
import type { RivetsStore } from './rivets-store';
import { useStyles } from './styles';

const CHOICES: Readonly<Partial<Record<RivetFact, readonly string[]>>> = {
  secondPerson: ['yes', 'no'],
  countRule: COUNT_RULES,
};

export function SettingsSection({ store }: { readonly store: RivetsStore }) {
  const styles = useStyles();
  const sheet = store.state.sheets.options;
  return (
    <section className={styles.section} aria-labelledby="rivets-settings">
      <h2 id="rivets-settings" className={styles.heading}>
        {t('What it rests on')}
      </h2>
      {sheet ? <Settings store={store} /> : <NoSheet store={store} />}
    </section>
  );
}

function NoSheet({ store }: { readonly store: RivetsStore }) {
  const styles = useStyles();
  const { solid, blind } = DEFAULT_TERMS.minutes;
  return (
    <>
      <p className={styles.text}>
        {t(
          'The usual options with the same number of rivets: {solid, number} minutes for a solid rivet and {blind, number} for a blind one (common practice, no source), your own time not paid, one person, no tool to buy.',
          { solid: solid.drill + solid.set, blind: blind.drill + blind.set },
        )}
      </p>
      <p className={styles.text}>
        {t(
          'With a sheet {sheet} in this workbook you choose the options, mix them by joint, and put in your own minutes, tools and labour rate.',
          { sheet: RIVET_OPTIONS_SHEET },
        )}
      </p>
      <Button appearance="primary" size="small" onClick={() => void store.addSheet()}>
        {t('Add the sheet {sheet}', { sheet: RIVET_OPTIONS_SHEET })}
      </Button>
    </>
  );
}

function Settings({ store }: { readonly store: RivetsStore }) {
  const styles = useStyles();
  const { facts, optionList, toolList, shearList } = store.state.sheets.options!;
  return (
    <>
      <p className={styles.quiet}>
        {t(
          'Everything here is on the sheet {sheet}. Its minutes are common practice without a source; a log of your own evenings is better.',
          { sheet: RIVET_OPTIONS_SHEET },
        )}
      </p>
      <div className={styles.facts}>
        {(Object.keys(RIVET_FACTS) as RivetFact[]).map((key) => {
          const fact = facts[key];
          const choices = CHOICES[key];
          return (
            fact && (
              <OptionField
                key={key}
                store={store}
                sheet={RIVET_OPTIONS_SHEET}
                row={fact.row}
                column={fact.column}
                cell={fact.value}
                kind={choices ? 'text' : 'number'}
                label={RIVET_FACTS[key]}
                {...(choices ? { choices } : {})}
              />
            )
          );
        })}
      </div>
      {optionList && (
        <ListEditor
          store={store}
          form={OPTION_LIST}
          found={optionList}
          numbers={[]}
          heading={t('Options')}
          addLabel={t('Add option')}
          help={t(
            '“as designed”, or solid, universal, flush or blind with a diameter and an alloy: solid 3/32, blind AS 1/8 (AA aluminium, AS steel stem, SS steel). The others are compared with the first.',
          )}
        />
      )}
      {toolList && (
        <ListEditor
          store={store}
          form={TOOL_LIST}
          found={toolList}
          numbers={['diameter', 'price', 'life']}
          heading={t('Tools')}
          addLabel={t('Add tool')}
          help={t(
            'Bought whole for the options that need them. A blank size is for all sizes; a blank life lasts longer than the job.',
          )}
        />
      )}
      {shearList && (
        <ListEditor
          store={store}
          form={SHEAR_LIST}
          found={shearList}
          numbers={['shear']}
          heading={t('Shear of blind rivets')}
          addLabel={t('Add figure')}
          help={t(
            'From the maker’s data sheet of the lot: the tables here have none. AA 1/8 is an aluminium rivet of 1/8 in.',
          )}
        />
      )}
    </>
  );
}
