import { makeStyles, tokens } from '@fluentui/react-components';

const hairline = `1px solid ${tokens.colorNeutralStroke2}`;
const heading = { margin: '0 0 4px', fontSize: tokens.fontSizeBase300, lineHeight: tokens.lineHeightBase300, fontWeight: tokens.fontWeightSemibold };
const numeric = { textAlign: 'right', fontVariantNumeric: 'tabular-nums', whiteSpace: 'nowrap' } as const;

export const useStyles = makeStyles({
  bar: { flexShrink: 0, display: 'flex', flexWrap: 'wrap', alignItems: 'center', gap: '6px', padding: '6px 12px 2px' },
  chooser: { flex: '1 1 160px', minWidth: 0, '& select': { paddingRight: '22px', minWidth: 0, textOverflow: 'ellipsis' } },
  body: { flex: '1 1 0', minHeight: '160px', overflowY: 'auto', padding: '10px 12px', overflowWrap: 'anywhere', ':focus-visible': { outline: `2px solid ${tokens.colorStrokeFocus2}`, outlineOffset: '-2px' } },
  section: { margin: '0 0 16px' },
  heading: { ...heading, outline: 'none' },
  head: { display: 'flex', flexWrap: 'wrap', alignItems: 'baseline', gap: '4px 8px', '& h2': { flexGrow: 1 } },
  text: { margin: '0 0 8px', maxWidth: '64ch' },
  quiet: { margin: '4px 0 0', color: tokens.colorNeutralForeground3, maxWidth: '64ch' },
  buttons: { display: 'flex', flexWrap: 'wrap', gap: '6px', margin: '8px 0 0' },
  picture: { marginTop: '10px' },
  facts: { display: 'grid', gridTemplateColumns: 'repeat(auto-fill, minmax(132px, 1fr))', columnGap: '8px', rowGap: '6px', alignItems: 'start' },
  wide: { gridColumn: '1 / -1' },
  fact: { display: 'flex', flexDirection: 'column', minWidth: 0 },
  label: { color: tokens.colorNeutralForeground2 },
  input: { width: '100%', minWidth: 0 },
  /** Grows with its text, where the browser can. */
  lines: {
    boxSizing: 'border-box', width: '100%', minWidth: 0, padding: '3px 8px', border: `1px solid ${tokens.colorNeutralStroke1}`, borderBottomColor: tokens.colorNeutralStrokeAccessible, borderRadius: tokens.borderRadiusMedium,
    backgroundColor: tokens.colorNeutralBackground1, color: tokens.colorNeutralForeground1, font: 'inherit', resize: 'none', overflowY: 'auto', fieldSizing: 'content' as never,
    ':focus': { outline: `2px solid ${tokens.colorStrokeFocus2}`, outlineOffset: '-1px' },
  },
  numericInput: { '& input': { textAlign: 'right', fontVariantNumeric: 'tabular-nums' } },
  /** A cell that a formula of the sheet fills: read, not typed. */
  computed: { display: 'block', padding: '2px 7px', minHeight: '20px' },
  wrong: { color: tokens.colorStatusDangerForeground3 },
  note: { display: 'block', overflowWrap: 'anywhere' },
  table: {
    width: '100%', borderCollapse: 'collapse', tableLayout: 'fixed',
    '& th, & td': { padding: '3px 3px', verticalAlign: 'top', textAlign: 'left', fontWeight: tokens.fontWeightRegular, overflowWrap: 'anywhere' },
    '& th:first-child, & td:first-child': { paddingLeft: 0 },
    '& th:last-child, & td:last-child': { paddingRight: 0 },
    '& thead th': { verticalAlign: 'bottom', fontWeight: tokens.fontWeightSemibold, borderBottom: `1px solid ${tokens.colorNeutralStrokeAccessible}` },
    '& [data-number]': { textAlign: 'right', fontVariantNumeric: 'tabular-nums' },
    '& [data-below]': { paddingTop: 0, paddingBottom: '6px', color: tokens.colorNeutralForeground3 },
    '& tbody[data-item]': { borderBottom: hairline },
  },
  /** A table to read: numbers keep their line. */
  results: { tableLayout: 'auto', '& tbody tr': { borderBottom: hairline }, '& td[data-number], & tbody th': { overflowWrap: 'normal' }, '& td[data-number]': { whiteSpace: 'nowrap' } },
  numeric,
  belowLine: { display: 'flex', flexWrap: 'wrap', alignItems: 'center', gap: '2px 8px' },
  grow: { flexGrow: 1, minWidth: 0 },
  verdict: { margin: '0 0 10px', padding: '8px 10px', border: `1px solid ${tokens.colorNeutralStrokeAccessible}`, borderRadius: '4px', backgroundColor: tokens.colorNeutralBackground2 },
  verdictOut: { border: `2px solid ${tokens.colorStatusDangerForeground3}` },
  verdictWord: { fontSize: tokens.fontSizeBase400, lineHeight: tokens.lineHeightBase400, fontWeight: tokens.fontWeightSemibold, margin: 0 },
  word: { display: 'inline-block', padding: '0 4px', border: `1px solid ${tokens.colorNeutralStrokeAccessible}`, borderRadius: '3px', color: tokens.colorNeutralForeground1, whiteSpace: 'nowrap', fontWeight: tokens.fontWeightSemibold },
  line: { margin: '2px 0 0' },
  choice: { display: 'flex', flexWrap: 'wrap', alignItems: 'flex-end', gap: '6px', margin: '6px 0' },
  choiceField: { flex: '1 1 120px', minWidth: 0, maxWidth: '220px' },
  check: { minHeight: '24px', display: 'inline-flex', alignItems: 'center', gap: '4px', '& input': { width: '18px', height: '18px', margin: 0 } },
  added: { display: 'flex', alignItems: 'flex-start', gap: '6px', flexShrink: 0, padding: '6px 12px', borderTop: hairline, backgroundColor: tokens.colorNeutralBackground2, overflowWrap: 'anywhere', ':focus-visible': { outline: `2px solid ${tokens.colorStrokeFocus2}`, outlineOffset: '-2px' } },
  spoken: { position: 'absolute', width: '1px', height: '1px', margin: '-1px', overflow: 'hidden', clipPath: 'inset(50%)', whiteSpace: 'nowrap' },
});
