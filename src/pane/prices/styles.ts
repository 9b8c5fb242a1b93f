import { makeStyles, tokens } from '@fluentui/react-components';

const hairline = `1px solid ${tokens.colorNeutralStroke2}`;

export const useGridStyles = makeStyles({
  scroller: { flex: '1 1 0', minHeight: '120px', overflow: 'auto', borderTop: hairline, position: 'relative' },
  table: { width: '100%', tableLayout: 'fixed', borderCollapse: 'separate', borderSpacing: 0, fontVariantNumeric: 'tabular-nums' },
  header: { position: 'sticky', top: 0, zIndex: 1, padding: 0, backgroundColor: tokens.colorNeutralBackground3, borderBottom: `1px solid ${tokens.colorNeutralStrokeAccessible}`, textAlign: 'left', fontWeight: tokens.fontWeightSemibold },
  sorter: {
    display: 'flex', alignItems: 'center', width: '100%', minHeight: '26px', padding: '2px 6px', border: 'none', background: 'none', color: 'inherit', font: 'inherit', cursor: 'pointer', textAlign: 'left', whiteSpace: 'nowrap',
    ':focus-visible': { outline: `2px solid ${tokens.colorStrokeFocus2}`, outlineOffset: '-2px' },
    ':hover': { backgroundColor: tokens.colorNeutralBackground3Hover },
  },
  numericSorter: { justifyContent: 'flex-end', textAlign: 'right' },
  arrow: { flexShrink: 0, fontSize: '10px' },
  cell: {
    padding: '5px 6px', verticalAlign: 'top', borderBottom: hairline, textAlign: 'left', fontWeight: tokens.fontWeightRegular, overflowWrap: 'anywhere', cursor: 'default',
    ':focus-visible': { outline: `2px solid ${tokens.colorStrokeFocus2}`, outlineOffset: '-2px' },
  },
  followed: { borderBottom: 'none' },
  row: { ':hover': { backgroundColor: tokens.colorNeutralBackground1Hover } },
  numeric: { textAlign: 'right', whiteSpace: 'nowrap', overflowWrap: 'normal' },
  /** One width for all units, so that the numbers before them line up. */
  unit: { display: 'inline-block', width: '26px', marginLeft: '3px', textAlign: 'left', color: tokens.colorNeutralForeground3 },
  openCell: { padding: '2px 2px 2px 0' },
  editing: { padding: '1px 2px' },
  fill: { width: '100%', minWidth: 0 },
  numericInput: { '& input': { textAlign: 'right' } },
  detail: { display: 'block', color: tokens.colorNeutralForeground3 },
  word: { display: 'inline-block', padding: '0 4px', border: `1px solid ${tokens.colorNeutralStrokeAccessible}`, borderRadius: '3px', color: tokens.colorNeutralForeground1, whiteSpace: 'nowrap' },
  note: { padding: '0 6px 6px', borderBottom: hairline, overflowWrap: 'anywhere' },
  wrong: { color: tokens.colorStatusDangerForeground1 },
  strong: { fontWeight: tokens.fontWeightSemibold },
  formCell: { padding: '4px 8px 10px', borderBottom: hairline, backgroundColor: tokens.colorNeutralBackground2 },
});

export const useFormStyles = makeStyles({
  fields: { display: 'grid', gridTemplateColumns: 'repeat(auto-fill, minmax(128px, 1fr))', columnGap: '8px', rowGap: '6px', alignItems: 'start' },
  wide: { gridColumn: '1 / -1' },
  control: { minWidth: 0, width: '100%' },
  numericInput: { '& input': { textAlign: 'right' } },
  buttons: { display: 'flex', flexWrap: 'wrap', gap: '6px', marginTop: '10px' },
  spacer: { flexGrow: 1 },
  unitLine: { marginTop: '6px', minHeight: '16px', fontVariantNumeric: 'tabular-nums' },
  refused: { marginTop: '6px', color: tokens.colorStatusDangerForeground1 },
  adding: { flexShrink: 1, minHeight: 0, overflowY: 'auto', padding: '6px 12px 10px', borderTop: hairline, backgroundColor: tokens.colorNeutralBackground2 },
  heading: { margin: '0 0 4px', fontSize: tokens.fontSizeBase300, lineHeight: tokens.lineHeightBase300, fontWeight: tokens.fontWeightSemibold },
});

export const usePanelStyles = makeStyles({
  toolbar: { flexShrink: 0, display: 'flex', flexDirection: 'column', gap: '6px', padding: '8px 12px' },
  line: { display: 'flex', flexWrap: 'wrap', alignItems: 'center', gap: '4px' },
  filter: { flex: '1 1 120px', minWidth: '120px' },
  select: { flex: '1 1 108px', minWidth: '108px', '& select': { paddingRight: '22px' } },
  spacer: { flexGrow: 1 },
  panel: { flex: '1 1 0', minHeight: 0, overflowY: 'auto', padding: '10px 12px', overflowWrap: 'anywhere' },
  heading: { margin: '0 0 6px', fontSize: tokens.fontSizeBase300, lineHeight: tokens.lineHeightBase300, fontWeight: tokens.fontWeightSemibold, ':focus-visible': { outline: `2px solid ${tokens.colorStrokeFocus2}` } },
  subheading: { margin: '10px 0 4px', fontSize: tokens.fontSizeBase200, fontWeight: tokens.fontWeightSemibold },
  text: { margin: '0 0 8px', maxWidth: '60ch' },
  list: { margin: '0 0 8px', paddingLeft: '18px' },
  buttons: { display: 'flex', flexWrap: 'wrap', gap: '6px', margin: '8px 0' },
  mapping: { width: '100%', borderCollapse: 'collapse', '& td, & th': { padding: '2px 4px 2px 0', textAlign: 'left', verticalAlign: 'middle', fontWeight: tokens.fontWeightRegular }, '& thead th': { fontWeight: tokens.fontWeightSemibold } },
  added: { display: 'flex', alignItems: 'flex-start', gap: '6px', flexShrink: 0, padding: '6px 12px', borderTop: hairline, backgroundColor: tokens.colorNeutralBackground2, ':focus-visible': { outline: `2px solid ${tokens.colorStrokeFocus2}`, outlineOffset: '-2px' } },
  foot: { flexShrink: 0, padding: '4px 12px', borderTop: hairline, color: tokens.colorNeutralForeground2, overflowWrap: 'anywhere' },
  wrong: { color: tokens.colorStatusDangerForeground1 },
  offScreen: { display: 'none' },
});
