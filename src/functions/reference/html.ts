/** Pieces of a page that every page of the reference shares. */
import { escapeMarkup } from '../../core/markup';

export const CAUTION =
  'An estimate is not a weighing. Loading limits come from the aircraft’s own documents, structural joints from the designer’s drawings; local rules and licensed inspection come first.';

const STYLE = `
:root { color-scheme: light dark; --line: color-mix(in srgb, currentColor 22%, transparent); --soft: color-mix(in srgb, currentColor 7%, transparent); font: 16px/1.55 system-ui, "Segoe UI", sans-serif; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 52rem; padding: 1.25rem 1rem 4rem; }
a { color: inherit; text-underline-offset: .18em; } a:hover { text-decoration-thickness: 2px; }
a:focus-visible, input:focus-visible { outline: 2px solid; outline-offset: 2px; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: .5rem 0; overflow-wrap: anywhere; } h2 { font-size: 1.1rem; margin: 2rem 0 .5rem; }
code, .number { font-family: ui-monospace, Consolas, "DejaVu Sans Mono", monospace; font-size: .92em; font-variant-numeric: tabular-nums; }
pre { background: var(--soft); padding: .6rem .8rem; overflow-x: auto; margin: .5rem 0; }
table { border-collapse: collapse; width: 100%; margin: .5rem 0; }
th, td { text-align: left; vertical-align: top; padding: .35rem .8rem .35rem 0; border-bottom: 1px solid var(--line); }
th { font-weight: 600; } td.number, th.number { text-align: right; white-space: nowrap; }
.scroll { overflow-x: auto; }
figure { margin: 1rem 0; } figure svg { max-width: 100%; height: auto; }
.caution { border-left: 4px solid; padding-left: .8rem; }
nav.back { font-size: .95rem; }
input[type=search] { font: inherit; padding: .35rem .6rem; width: 100%; max-width: 24rem; border: 1px solid; background: transparent; color: inherit; }
@media print { nav, .find { display: none; } }`;

/** A whole page. Everything it needs is inside it. */
export const page = (title: string, body: string): string => `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeMarkup(title)}</title>
<style>${STYLE}</style>
</head>
<body>
${body}
</body>
</html>
`;
