/** What the names of Tarebook's own functions begin with: TARE.AREA.RECT. */
export const NAMESPACE = 'TARE';
