#!/usr/bin/env node
/** Draws the add-in's PNG icons from their SVG: node tools/manifest-icons.mjs. Needs a Chromium (CHROMIUM names another one). */
import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { chromium } from 'playwright-core';

const FOLDER = resolve(import.meta.dirname, '..', 'manifest', 'icons');
const SIZES = [16, 32, 64, 80, 128];

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox'],
});
try {
  const page = await browser.newPage();
  for (const size of SIZES) {
    const svg = await readFile(resolve(FOLDER, size < 32 ? 'icon-small.svg' : 'icon.svg'), 'utf8');
    await page.setViewportSize({ width: size, height: size });
    await page.setContent(
      `<style>html,body{margin:0;background:transparent}svg{display:block;width:${size}px;height:${size}px}</style>${svg}`,
    );
    await page.screenshot({ path: resolve(FOLDER, `icon-${size}.png`), omitBackground: true });
    console.log(`manifest/icons/icon-${size}.png`);
  }
} finally {
  await browser.close();
}
