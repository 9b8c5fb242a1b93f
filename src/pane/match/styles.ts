import { makeStyles, tokens } from '@fluentui/react-components';
import { CHOICE, CHOICES, HAIRLINE, HEADING, LEGEND, TEXT } from '../shared/looks';

const TABLE = {
  width: '100%',
  borderCollapse: 'collapse',
  '& td, & th': {
    padding: '2px 6px 2px 0',
    textAlign: 'left',
    verticalAlign: 'middle',
    fontWeight: tokens.fontWeightRegular,
  },
  '& thead th': { fontWeight: tokens.fontWeightSemibold },
} as const;

export const useStyles = makeStyles({
  panel: { flex: '1 1 0', minHeight: '120px', overflowY: 'auto', padding: '10px 12px', overflowWrap: 'break-word' },
  offer: { margin: '0 0 14px', padding: '0 0 12px', borderBottom: HAIRLINE, maxWidth: '64ch' },
  list: { margin: '0 0 8px' },
  heading: { ...HEADING, outline: 'none' },
  text: TEXT,
  quiet: { margin: '4px 0 8px', maxWidth: '64ch', color: tokens.colorNeutralForeground2 },
  mapping: { ...TABLE, margin: '0 0 8px', '& select': { paddingRight: '22px' } },
  preview: { ...TABLE, margin: '0 0 8px' },
  caption: { textAlign: 'left', padding: '0 0 2px', fontWeight: tokens.fontWeightSemibold },
  choices: { ...CHOICES, margin: '0 0 8px' },
  legend: LEGEND,
  choice: CHOICE,
  field: { display: 'flex', flexDirection: 'column', gap: '2px', margin: '0 0 8px', maxWidth: '320px' },
  buttons: { display: 'flex', flexWrap: 'wrap', gap: '6px', margin: '0 0 8px' },
  wrong: { margin: '6px 0 0', color: tokens.colorStatusDangerForeground3, maxWidth: '64ch' },
});
