import { makeStyles, tokens } from '@fluentui/react-components';
import { HAIRLINE, HEADING, LIST, RULE, SPOKEN, TEXT, WRONG } from '../../shared/looks';

export const useWeightsStyles = makeStyles({
  view: { flex: '1 1 0', minHeight: 0, display: 'flex', flexDirection: 'column' },
  panel: {
    flex: '1 1 0',
    minHeight: '120px',
    overflowY: 'auto',
    padding: '10px 12px',
    overflowWrap: 'break-word',
    position: 'relative',
  },
  hidden: { display: 'none' },
  heading: { ...HEADING, margin: '0 0 6px' },
  text: TEXT,
  quiet: { margin: '0 0 8px', maxWidth: '64ch', color: tokens.colorNeutralForeground2 },
  /** Keeps its place where it says nothing. */
  oneLine: { minHeight: tokens.lineHeightBase300 },
  list: LIST,
  line: { display: 'flex', flexWrap: 'wrap', alignItems: 'center', gap: '6px', margin: '0 0 8px' },
  fields: {
    display: 'grid',
    gridTemplateColumns: 'repeat(auto-fill, minmax(140px, 1fr))',
    gap: '6px 8px',
    margin: '0 0 4px',
    alignItems: 'start',
  },
  control: { minWidth: 0, width: '100%' },
  choose: { minWidth: '140px', flex: '1 1 140px', '& select': { paddingRight: '22px' } },
  check: {
    fontSize: tokens.fontSizeBase200,
    lineHeight: tokens.lineHeightBase200,
    paddingTop: '8px',
    paddingBottom: '8px',
  },
  group: { border: 'none', padding: 0, margin: '0 0 8px', minInlineSize: 0 },
  legend: { padding: 0, margin: '0 0 2px', fontSize: tokens.fontSizeBase200, fontWeight: tokens.fontWeightSemibold },
  checks: { maxHeight: '190px', overflowY: 'auto', border: HAIRLINE, borderRadius: tokens.borderRadiusMedium },
  wrong: WRONG,
  section: { margin: '0 0 14px' },
  foot: {
    flexShrink: 0,
    padding: '4px 12px',
    borderTop: HAIRLINE,
    color: tokens.colorNeutralForeground2,
    overflowWrap: 'break-word',
  },
  message: { display: 'flex', flexWrap: 'wrap', alignItems: 'center', gap: '2px 8px' },
  link: {
    padding: 0,
    border: 'none',
    background: 'none',
    color: 'inherit',
    font: 'inherit',
    textAlign: 'left',
    cursor: 'pointer',
    textDecorationLine: 'underline',
    textDecorationColor: tokens.colorNeutralStrokeAccessible,
    ':focus-visible': { outline: `2px solid ${tokens.colorStrokeFocus2}` },
  },
});

export const useTableStyles = makeStyles({
  table: {
    width: '100%',
    borderCollapse: 'collapse',
    fontVariantNumeric: 'tabular-nums',
    margin: '0 0 10px',
    '& th, & td': {
      padding: '4px',
      borderBottom: HAIRLINE,
      verticalAlign: 'top',
      fontWeight: tokens.fontWeightRegular,
    },
    '& th:first-child': { paddingLeft: 0, textAlign: 'left' },
    '& td:last-child, & th:last-child': { paddingRight: 0 },
    '& thead th': {
      fontWeight: tokens.fontWeightSemibold,
      borderBottom: RULE,
      verticalAlign: 'bottom',
    },
  },
  numeric: { textAlign: 'right', overflowWrap: 'normal', hyphens: 'manual' },
  kept: { whiteSpace: 'nowrap' },
  strong: { '& th, & td': { fontWeight: tokens.fontWeightSemibold } },
  group: { '& th': { paddingTop: '10px', fontWeight: tokens.fontWeightSemibold } },
  caption: SPOKEN,
});
