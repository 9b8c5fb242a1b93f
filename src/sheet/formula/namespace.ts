/** What the names of Tarebook's own functions begin with: TARE.AREA.RECT. */
export const NAMESPACE = 'TARE';

/**
 * What a file writes before a function that is handed on by its bare name. A typed formula has it only where a name of the
 * workbook is spelled like the function: BYROW(A1:C3,_xleta.SUM).
 */
export const HANDED_ON = '_xleta.';
