import { makeStyles, tokens } from '@fluentui/react-components';

const hairline = `1px solid ${tokens.colorNeutralStroke2}`;
const rule = `1px solid ${tokens.colorNeutralStrokeAccessible}`;

export const useStyles = makeStyles({
  body: { flex: '1 1 0', minHeight: '160px', overflowY: 'auto', padding: '8px 12px', overflowWrap: 'anywhere', ':focus-visible': { outline: `2px solid ${tokens.colorStrokeFocus2}`, outlineOffset: '-2px' } },
  section: { margin: '0 0 16px' },
  heading: { margin: '0 0 4px', fontSize: tokens.fontSizeBase300, lineHeight: tokens.lineHeightBase300, fontWeight: tokens.fontWeightSemibold },
  subheading: { margin: '10px 0 4px', fontSize: tokens.fontSizeBase200, fontWeight: tokens.fontWeightSemibold },
  text: { margin: '0 0 8px', maxWidth: '64ch' },
  quiet: { margin: '4px 0', color: tokens.colorNeutralForeground3, maxWidth: '64ch' },
  caution: { margin: '0 0 10px', padding: '6px 8px', border: rule, borderRadius: '4px', backgroundColor: tokens.colorNeutralBackground2, maxWidth: '64ch' },
  wrong: { color: tokens.colorStatusDangerForeground3 },
  table: {
    width: '100%', maxWidth: '560px', margin: '0 0 12px', borderCollapse: 'collapse', fontVariantNumeric: 'tabular-nums',
    '& th, & td': { padding: '2px 3px', verticalAlign: 'top', textAlign: 'left', fontWeight: tokens.fontWeightRegular, overflowWrap: 'anywhere' },
    '& th:first-child, & td:first-child': { paddingLeft: 0 },
    '& th:last-child, & td:last-child': { paddingRight: 0 },
    '& thead th': { verticalAlign: 'bottom', color: tokens.colorNeutralForeground3, borderBottom: rule },
    '& [data-number]': { textAlign: 'right' },
    '& td[data-number]': { whiteSpace: 'nowrap', overflowWrap: 'normal' },
    '& th[data-name]': { fontWeight: tokens.fontWeightSemibold, paddingTop: '4px' },
    '& [data-below]': { paddingBottom: '6px', color: tokens.colorNeutralForeground3 },
    '& tbody[data-item]': { borderBottom: hairline },
    '& [data-total] > *': { fontWeight: tokens.fontWeightSemibold, borderTop: rule },
  },
  order: { tableLayout: 'fixed' },
  sums: { margin: '0' },
  caption: { captionSide: 'top', textAlign: 'left', padding: '4px 0', fontSize: tokens.fontSizeBase200, fontWeight: tokens.fontWeightSemibold },
  grand: { display: 'flex', justifyContent: 'space-between', gap: '12px', maxWidth: '560px', margin: '0 0 12px', paddingTop: '4px', borderTop: rule, fontWeight: tokens.fontWeightSemibold, fontVariantNumeric: 'tabular-nums' },
  list: { margin: '0 0 8px', paddingLeft: '18px' },
  sheets: { margin: '0 0 8px', padding: 0, listStyleType: 'none', display: 'flex', flexDirection: 'column', gap: '6px' },
  hidden: { position: 'absolute', width: '1px', height: '1px', overflow: 'hidden', clipPath: 'inset(50%)', whiteSpace: 'nowrap' },
  fields: { display: 'grid', gridTemplateColumns: 'repeat(auto-fill, minmax(120px, 1fr))', columnGap: '8px', rowGap: '6px', alignItems: 'end', maxWidth: '560px' },
  field: { display: 'flex', flexDirection: 'column', minWidth: 0 },
  label: { color: tokens.colorNeutralForeground2 },
  input: { width: '100%', minWidth: 0, '& select': { minWidth: 0, paddingRight: '22px', textOverflow: 'ellipsis' } },
  buttons: { display: 'flex', flexWrap: 'wrap', gap: '6px', margin: '8px 0' },
  // A plan is paper: white in every theme, so that it prints and reads as it is drawn.
  drawing: { margin: '8px 0', padding: '4px', border: rule, backgroundColor: '#ffffff', '& svg': { display: 'block', width: '100%', height: 'auto' } },
});
