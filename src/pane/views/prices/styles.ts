import { makeStyles, tokens } from '@fluentui/react-components';

const hairline = `1px solid ${tokens.colorNeutralStroke2}`;

export const useGridStyles = makeStyles({
  scroller: { flex: '1 1 0', minHeight: '120px', overflow: 'auto', borderTop: hairline, position: 'relative', scrollPaddingTop: '28px' },
  grid: { fontVariantNumeric: 'tabular-nums' },
  head: { position: 'sticky', top: 0, zIndex: 1, backgroundColor: tokens.colorNeutralBackground3, borderBottom: `1px solid ${tokens.colorNeutralStrokeAccessible}` },
  row: { display: 'grid', gridTemplateColumns: 'var(--columns)' },
  /** One item. Those out of sight are not laid out, which keeps a list of a thousand rows quick. */
  group: { borderBottom: hairline, contentVisibility: 'auto', containIntrinsicSize: 'auto 56px', ':hover': { backgroundColor: tokens.colorNeutralBackground2 } },
  header: { fontWeight: tokens.fontWeightSemibold },
  sorter: {
    display: 'flex', alignItems: 'center', width: '100%', minHeight: '26px', padding: '2px 6px', border: 'none', background: 'none', color: 'inherit', font: 'inherit', cursor: 'pointer', textAlign: 'left', overflowWrap: 'anywhere',
    ':focus-visible': { outline: `2px solid ${tokens.colorStrokeFocus2}`, outlineOffset: '-2px' },
    ':hover': { textDecorationLine: 'underline' },
  },
  numericSorter: { justifyContent: 'flex-end', textAlign: 'right' },
  arrow: { flexShrink: 0, fontSize: '10px' },
  cell: {
    padding: '4px 6px', minWidth: 0, overflowWrap: 'anywhere', cursor: 'default',
    ':focus-visible': { outline: `2px solid ${tokens.colorStrokeFocus2}`, outlineOffset: '-2px' },
  },
  followed: { paddingBottom: 0 },
  numeric: { textAlign: 'right', whiteSpace: 'nowrap', overflowWrap: 'normal', paddingLeft: '2px' },
  /** One width for all units, so that the numbers before them line up. */
  unit: { display: 'inline-block', minWidth: '26px', marginLeft: '3px', textAlign: 'left', color: tokens.colorNeutralForeground3 },
  openCell: { padding: '0 2px 0 0', '& button': { marginBottom: '-6px' } },
  editing: { padding: '1px 2px' },
  fill: { width: '100%', minWidth: 0 },
  numericInput: { '& input': { textAlign: 'right' } },
  detail: { display: 'block', whiteSpace: 'normal', overflowWrap: 'anywhere', color: tokens.colorNeutralForeground3 },
  word: { display: 'inline-block', padding: '0 4px', border: `1px solid ${tokens.colorNeutralStrokeAccessible}`, borderRadius: '3px', color: tokens.colorNeutralForeground1, whiteSpace: 'nowrap' },
  note: { padding: '1px 6px 4px', overflowWrap: 'anywhere' },
  wrong: { color: tokens.colorStatusDangerForeground3 },
  strong: { fontWeight: tokens.fontWeightSemibold },
  quote: { color: tokens.colorNeutralForeground3 },
  together: { display: 'inline-block', maxWidth: '100%', marginRight: '4px' },
  form: { margin: '4px -6px -4px', padding: '6px 8px 8px', backgroundColor: tokens.colorNeutralBackground2 },
  spoken: { position: 'absolute', width: '1px', height: '1px', margin: '-1px', overflow: 'hidden', clipPath: 'inset(50%)', whiteSpace: 'nowrap' },
});

export const useFormStyles = makeStyles({
  fields: { display: 'grid', gridTemplateColumns: 'repeat(auto-fill, minmax(128px, 1fr))', columnGap: '8px', rowGap: '6px', alignItems: 'start' },
  wide: { gridColumn: '1 / -1' },
  control: { minWidth: 0, width: '100%' },
  numericInput: { '& input': { textAlign: 'right' } },
  buttons: { display: 'flex', flexWrap: 'wrap', gap: '6px', marginTop: '10px' },
  spacer: { flexGrow: 1 },
  /** Stays in sight where the form is longer than its place. */
  sticky: { position: 'sticky', bottom: '-10px', margin: '6px -12px -10px', padding: '6px 12px', backgroundColor: tokens.colorNeutralBackground2, zIndex: 1 },
  unitLine: { marginTop: '6px', minHeight: '16px', fontVariantNumeric: 'tabular-nums' },
  refused: { marginTop: '6px', color: tokens.colorStatusDangerForeground3 },
  adding: { flexShrink: 1, minHeight: 0, overflowY: 'auto', padding: '6px 12px 10px', borderTop: hairline, backgroundColor: tokens.colorNeutralBackground2 },
  heading: { margin: '0 0 4px', fontSize: tokens.fontSizeBase300, lineHeight: tokens.lineHeightBase300, fontWeight: tokens.fontWeightSemibold },
});

export const usePanelStyles = makeStyles({
  toolbar: { flexShrink: 0, display: 'flex', flexDirection: 'column', gap: '6px', padding: '8px 12px' },
  line: { display: 'flex', flexWrap: 'wrap', alignItems: 'center', gap: '4px' },
  filter: { flex: '1 1 176px', minWidth: '120px' },
  sort: { flex: '1 1 144px', display: 'flex', gap: '4px' },
  age: { maxWidth: '180px' },
  select: { flex: '1 1 116px', minWidth: '110px', '& select': { paddingRight: '22px' } },
  spacer: { flexGrow: 1 },
  panel: { flex: '1 1 0', minHeight: 0, overflowY: 'auto', padding: '10px 12px', overflowWrap: 'anywhere' },
  heading: { margin: '0 0 6px', fontSize: tokens.fontSizeBase300, lineHeight: tokens.lineHeightBase300, fontWeight: tokens.fontWeightSemibold, outline: 'none' },
  subheading: { margin: '10px 0 4px', fontSize: tokens.fontSizeBase200, fontWeight: tokens.fontWeightSemibold },
  text: { margin: '0 0 8px', maxWidth: '60ch' },
  list: { margin: '0 0 8px', paddingLeft: '18px' },
  buttons: { display: 'flex', flexWrap: 'wrap', gap: '6px', margin: '8px 0' },
  check: { fontSize: tokens.fontSizeBase200, lineHeight: tokens.lineHeightBase200, paddingTop: '8px', paddingBottom: '8px' },
  mapping: { width: '100%', borderCollapse: 'collapse', '& td, & th': { padding: '2px 4px 2px 0', textAlign: 'left', verticalAlign: 'middle', fontWeight: tokens.fontWeightRegular }, '& thead th': { fontWeight: tokens.fontWeightSemibold } },
  added: { display: 'flex', alignItems: 'flex-start', gap: '6px', flexShrink: 0, padding: '6px 12px', borderTop: hairline, backgroundColor: tokens.colorNeutralBackground2, ':focus-visible': { outline: `2px solid ${tokens.colorStrokeFocus2}`, outlineOffset: '-2px' } },
  foot: { flexShrink: 0, padding: '4px 12px', borderTop: hairline, color: tokens.colorNeutralForeground2, overflowWrap: 'anywhere' },
  wrong: { color: tokens.colorStatusDangerForeground3 },
  offScreen: { display: 'none' },
});
