import { makeStyles, tokens } from '@fluentui/react-components';

const hairline = `1px solid ${tokens.colorNeutralStroke2}`;
const ring = { outline: `2px solid ${tokens.colorStrokeFocus2}`, outlineOffset: '-2px' };

export const useStyles = makeStyles({
  bar: { flexShrink: 0, display: 'flex', flexWrap: 'wrap', alignItems: 'center', gap: '6px', padding: '6px 12px' },
  search: { flex: '2 1 140px', minWidth: 0 },
  family: { flex: '1 1 110px', minWidth: 0, '& select': { paddingRight: '22px', minWidth: 0, textOverflow: 'ellipsis' } },
  body: { flex: '1 1 0', minHeight: '160px', overflowY: 'auto', padding: '0 12px 8px', overflowWrap: 'anywhere', ':focus-visible': ring },
  text: { margin: '0 0 8px', maxWidth: '64ch' },
  quiet: { color: tokens.colorNeutralForeground3 },
  wrong: { color: tokens.colorStatusDangerForeground3 },
  subheading: { margin: '12px 0 2px', fontSize: tokens.fontSizeBase200, lineHeight: tokens.lineHeightBase200, fontWeight: tokens.fontWeightSemibold, color: tokens.colorNeutralForeground2 },
  list: { margin: '0 -12px', padding: 0, listStyleType: 'none' },
  item: {
    width: '100%', minHeight: '40px', display: 'grid', gridTemplateColumns: 'minmax(0, 1fr)', alignItems: 'center', columnGap: '10px', padding: '4px 12px', border: 'none', background: 'none', color: tokens.colorNeutralForeground1, font: 'inherit', textAlign: 'left', cursor: 'pointer',
    ':hover': { backgroundColor: tokens.colorNeutralBackground1Hover },
    ':focus-visible': ring,
  },
  withThumbnail: { gridTemplateColumns: '56px minmax(0, 1fr)' },
  thumbnail: { display: 'block', width: '56px', height: '36px', color: tokens.colorNeutralForeground2, '& svg': { display: 'block' } },
  name: { display: 'block', fontWeight: tokens.fontWeightSemibold },
  summary: { display: 'block', color: tokens.colorNeutralForeground2 },

  heading: { margin: 0, flex: '1 1 auto', minWidth: 0, fontSize: tokens.fontSizeBase300, lineHeight: tokens.lineHeightBase300, fontWeight: tokens.fontWeightSemibold, overflowWrap: 'anywhere' },
  units: { flex: '0 0 auto', '& select': { paddingRight: '22px' } },
  drawing: { display: 'flex', alignItems: 'center', justifyContent: 'center', margin: '0 0 8px', border: hairline, borderRadius: '4px', backgroundColor: tokens.colorNeutralBackground2, color: tokens.colorNeutralForeground1, overflow: 'hidden', '& svg': { display: 'block', maxHeight: '100%' } },
  result: { minHeight: '40px', margin: '0 0 8px' },
  tall: { minHeight: '108px' },
  value: { fontSize: tokens.fontSizeBase400, lineHeight: tokens.lineHeightBase400, fontWeight: tokens.fontWeightSemibold, fontVariantNumeric: 'tabular-nums' },
  scroll: { overflowX: 'auto', ':focus-visible': ring },
  table: {
    borderCollapse: 'collapse', fontVariantNumeric: 'tabular-nums',
    '& th, & td': { padding: '1px 10px 1px 0', textAlign: 'left', fontWeight: tokens.fontWeightRegular, whiteSpace: 'nowrap' },
    '& th': { color: tokens.colorNeutralForeground3 },
    '& [data-number]': { textAlign: 'right' },
  },
  /** What is seen of the function stays while the fields pass below it. */
  stuck: { position: 'sticky', zIndex: 1, margin: '0 -12px', padding: '0 12px', backgroundColor: tokens.colorNeutralBackground1, borderBottom: hairline },
  use: { display: 'flex', alignItems: 'center', gap: '4px 8px', minHeight: '36px', paddingBottom: '4px', boxSizing: 'border-box' },
  useButton: { flexShrink: 0, maxWidth: '60%', overflow: 'hidden', textOverflow: 'ellipsis', whiteSpace: 'nowrap' },
  limits: { flex: '1 1 0', minWidth: 0, lineHeight: '16px', maxHeight: '32px', overflow: 'hidden', color: tokens.colorNeutralForeground3 },
  field: { display: 'grid', gridTemplateColumns: 'minmax(0, 1fr) minmax(0, 1fr)', columnGap: '10px', padding: '6px 0 2px', alignItems: 'start' },
  stacked: { gridTemplateColumns: 'minmax(0, 1fr)' },
  label: { display: 'block', lineHeight: '24px', fontWeight: tokens.fontWeightSemibold },
  help: { display: 'block', lineHeight: '16px', color: tokens.colorNeutralForeground3 },
  input: { width: '100%', minWidth: 0, '& select': { minWidth: 0, paddingRight: '22px', textOverflow: 'ellipsis' } },
  back: { minWidth: '24px', padding: 0 },
  held: { display: 'block', height: '18px', lineHeight: '18px', color: tokens.colorNeutralForeground2, fontVariantNumeric: 'tabular-nums', overflow: 'hidden', textOverflow: 'ellipsis', whiteSpace: 'nowrap' },
  fault: { gridColumn: '1 / -1', color: tokens.colorStatusDangerForeground3 },
  more: { margin: '6px 0 0' },
  source: { margin: '12px 0 0', color: tokens.colorNeutralForeground3 },

  dock: { flexShrink: 0, display: 'flex', flexDirection: 'column', gap: '6px', padding: '6px 12px', borderTop: hairline, overflowWrap: 'anywhere' },
  line: { display: 'flex', flexWrap: 'wrap', alignItems: 'center', gap: '4px 8px' },
  formulaLine: { display: 'flex', alignItems: 'flex-start', gap: '8px' },
  formula: { flex: '1 1 0', minWidth: 0, minHeight: '32px', maxHeight: '64px', overflowY: 'auto', fontFamily: tokens.fontFamilyMonospace, fontSize: tokens.fontSizeBase200, lineHeight: '16px', userSelect: 'text', ':focus-visible': ring },
  missing: { color: tokens.colorNeutralForeground3, fontStyle: 'italic' },
  row: { width: '72px' },
  grow: { flex: '1 1 120px', minWidth: 0 },
  check: { minHeight: '24px', display: 'inline-flex', alignItems: 'center', gap: '6px', '& input': { width: '16px', height: '16px', margin: 0 } },
  question: { display: 'flex', flexWrap: 'wrap', alignItems: 'center', gap: '4px 8px', padding: '6px 8px', border: `1px solid ${tokens.colorNeutralStrokeAccessible}`, borderRadius: '4px' },
});
