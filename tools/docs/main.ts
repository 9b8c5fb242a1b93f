/** npm run docs: writes the function reference into dist/docs, and fails on a dead link. */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { referencePages } from '../../src/functions/reference';

const folder = 'dist/docs';
const pages = referencePages();

const dead = Object.entries(pages).flatMap(([name, html]) =>
  [...html.matchAll(/href="([^"]*)"/g)].flatMap(([, href]) => {
    const [file, anchor] = href!.split('#');
    const target = file === '' ? html : pages[file!];
    const found = target !== undefined && (anchor === undefined || target.includes(`id="${anchor}"`));
    return found ? [] : [`${name}: ${href}`];
  }),
);
if (dead.length > 0) {
  console.error(`Dead links:\n${dead.join('\n')}`);
  process.exit(1);
}

rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
for (const [name, html] of Object.entries(pages)) writeFileSync(`${folder}/${name}`, html);
console.log(`${Object.keys(pages).length} pages in ${folder}, no dead link`);
