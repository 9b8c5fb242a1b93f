/** Looks that several parts of the pane have, to be taken into their styles. */
import { tokens } from '@fluentui/react-components';

/** A line of its own above a view: what is offered or said there, and its buttons. */
export const BAR = {
  flexShrink: 0,
  display: 'flex',
  flexWrap: 'wrap',
  alignItems: 'center',
  gap: '4px 8px',
  padding: '4px 12px',
  borderBottom: `1px solid ${tokens.colorNeutralStroke2}`,
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
export const LIST = { margin: '0 0 8px', paddingLeft: '18px' } as const;

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
