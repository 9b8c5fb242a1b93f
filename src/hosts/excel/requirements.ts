/** True where this Excel has the requirement set ExcelApi of that version. */
export const supports = (version: string): boolean => Office.context.requirements.isSetSupported('ExcelApi', version);
