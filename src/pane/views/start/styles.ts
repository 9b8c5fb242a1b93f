import { makeStyles, tokens } from '@fluentui/react-components';
import { BAR, CHOICE, CHOICES, HAIRLINE, LEGEND, TEXT } from '../../shared/looks';

export const useStyles = makeStyles({
  panel: { flex: '1 1 0', minHeight: 0, overflowY: 'auto', padding: '14px 12px', overflowWrap: 'break-word' },
  heading: {
    margin: '0 0 6px',
    fontSize: tokens.fontSizeBase400,
    lineHeight: tokens.lineHeightBase400,
    fontWeight: tokens.fontWeightSemibold,
    outline: 'none',
  },
  text: TEXT,
  quiet: { margin: '0 0 8px', maxWidth: '64ch', color: tokens.colorNeutralForeground3 },
  sheets: { margin: '0 0 12px', padding: 0, listStyleType: 'none', maxWidth: '64ch', borderTop: HAIRLINE },
  sheet: {
    display: 'flex',
    flexWrap: 'wrap',
    alignItems: 'center',
    gap: '2px 10px',
    padding: '6px 0',
    borderBottom: HAIRLINE,
  },
  name: { flex: '0 0 52px', fontWeight: tokens.fontWeightSemibold },
  what: { flex: '1 1 180px', minWidth: 0 },
  choices: { ...CHOICES, margin: '0 0 10px' },
  legend: LEGEND,
  choice: CHOICE,
  hint: { margin: '0 0 4px 24px', color: tokens.colorNeutralForeground3, maxWidth: '60ch' },
  /** Name and button in one line, what there is to say below. */
  added: { '& > :nth-child(1)': { flex: '1 1 100px' }, '& > :nth-child(2)': { order: 3, flexBasis: '100%' } },
  buttons: { display: 'flex', flexWrap: 'wrap', gap: '6px', margin: '12px 0 6px' },
  wrong: { margin: '6px 0 0', color: tokens.colorStatusDangerForeground3, maxWidth: '64ch' },
  bar: BAR,
  grow: { flex: '1 1 140px', minWidth: 0 },
});
