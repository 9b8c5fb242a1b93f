const SIGNS: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** A text as it stands in HTML, SVG and XML, between tags and in attributes with double quotes. */
export const escapeMarkup = (text: string): string => text.replace(/[&<>"]/g, (sign) => SIGNS[sign]!);
