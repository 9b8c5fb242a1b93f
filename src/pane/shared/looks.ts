/** Looks that several parts of the pane have, to be taken into their styles. */
import { tokens } from '@fluentui/react-components';

/** Between rows, and between a view and what stands below it. */
export const HAIRLINE = `1px solid ${tokens.colorNeutralStroke2}`;
/** Around a box, and below the head of a table: seen by those who see little contrast. */
export const RULE = `1px solid ${tokens.colorNeutralStrokeAccessible}`;
/** Around what has the keyboard, within its edge where that is cut off. */
export const RING = { outline: `2px solid ${tokens.colorStrokeFocus2}`, outlineOffset: '-2px' } as const;
/** Read aloud, and not shown. */
export const SPOKEN = {
  position: 'absolute',
  width: '1px',
  height: '1px',
  margin: '-1px',
  overflow: 'hidden',
  clipPath: 'inset(50%)',
  whiteSpace: 'nowrap',
} as const;

/** What scrolls below the bars of a view. */
export const BODY = {
  flex: '1 1 0',
  minHeight: '160px',
  overflowY: 'auto',
  padding: '8px 12px',
  overflowWrap: 'break-word',
  ':focus-visible': RING,
} as const;
/** A choice that shares a line with others: its text is cut before its arrow. */
export const CHOOSER = {
  flex: '1 1 160px',
  minWidth: 0,
  '& select': { paddingRight: '22px', minWidth: 0, textOverflow: 'ellipsis' },
} as const;

/** A line of its own above a view: what is offered or said there, and its buttons. */
export const BAR = {
  flexShrink: 0,
  display: 'flex',
  flexWrap: 'wrap',
  alignItems: 'center',
  gap: '4px 8px',
  padding: '4px 12px',
  borderBottom: HAIRLINE,
  backgroundColor: tokens.colorNeutralBackground2,
} as const;

/** A part of a view under a heading of its own. */
export const SECTION = { margin: '0 0 16px' } as const;
export const HEADING = {
  margin: '0 0 4px',
  fontSize: tokens.fontSizeBase300,
  lineHeight: tokens.lineHeightBase300,
  fontWeight: tokens.fontWeightSemibold,
} as const;
export const SUBHEADING = {
  margin: '10px 0 4px',
  fontSize: tokens.fontSizeBase200,
  fontWeight: tokens.fontWeightSemibold,
} as const;
export const TEXT = { margin: '0 0 8px', maxWidth: '64ch' } as const;
export const WRONG = { color: tokens.colorStatusDangerForeground3 } as const;
/** What must be read before the figures beside it are used. */
export const CAUTION = {
  margin: '0 0 10px',
  padding: '6px 8px',
  border: RULE,
  borderRadius: '4px',
  backgroundColor: tokens.colorNeutralBackground2,
  maxWidth: '64ch',
} as const;
/** A word in a box beside a figure: what it is, in few letters. */
export const WORD = {
  display: 'inline-block',
  padding: '0 4px',
  border: RULE,
  borderRadius: '3px',
  color: tokens.colorNeutralForeground1,
  whiteSpace: 'nowrap',
} as const;
export const BUTTONS = { display: 'flex', flexWrap: 'wrap', gap: '6px', margin: '8px 0 0' } as const;
/** Said once, with its button, at the foot of a view. */
export const ADDED = {
  display: 'flex',
  alignItems: 'flex-start',
  gap: '6px',
  flexShrink: 0,
  padding: '6px 12px',
  borderTop: HAIRLINE,
  backgroundColor: tokens.colorNeutralBackground2,
  ':focus-visible': RING,
} as const;
export const LIST = { margin: '0 0 8px', paddingLeft: '18px' } as const;

/**
 * A table of one item or several rows an item. Cells say by data what they are: data-number; data-below, what is said of
 * the row above; data-item on a body of rows.
 */
export const TABLE = {
  width: '100%',
  borderCollapse: 'collapse',
  '& th, & td': {
    padding: '2px 3px',
    verticalAlign: 'top',
    textAlign: 'left',
    fontWeight: tokens.fontWeightRegular,
  },
  '& th:first-child, & td:first-child': { paddingLeft: 0 },
  '& th:last-child, & td:last-child': { paddingRight: 0 },
  '& thead th': { verticalAlign: 'bottom', fontWeight: tokens.fontWeightSemibold, borderBottom: RULE },
  '& [data-number]': { textAlign: 'right' },
  '& [data-below]': { paddingBottom: '6px', color: tokens.colorNeutralForeground3 },
  '& tbody[data-item]': { borderBottom: HAIRLINE },
} as const;
/** Numbers of a table that are not divided between lines. */
export const NUMBERS_WHOLE = { '& td[data-number]': { whiteSpace: 'nowrap', overflowWrap: 'normal' } } as const;

/** A tick with its label, in a line of others. */
export const CHECK = {
  minHeight: '24px',
  display: 'inline-flex',
  alignItems: 'center',
  gap: '4px',
  '& input': { width: '18px', height: '18px', margin: 0 },
} as const;

/** A group of choices, its legend, and each of them: a radio or a tick with its label. */
export const CHOICES = { padding: 0, border: 'none', minWidth: 0 } as const;
export const LEGEND = { padding: 0, fontWeight: tokens.fontWeightSemibold } as const;
export const CHOICE = {
  display: 'flex',
  alignItems: 'center',
  gap: '6px',
  minHeight: '26px',
  '& input': {
    width: '18px',
    height: '18px',
    margin: 0,
    flexShrink: 0,
    accentColor: tokens.colorCompoundBrandBackground,
  },
} as const;
