/**
 * Text of a workbook as it goes to a terminal: without the control characters with which it could move the cursor,
 * recolour or retitle the window. Tabs and line breaks stay.
 */
export const shown = (text: string): string => text.replace(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/g, '');
