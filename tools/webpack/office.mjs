/**
 * Office.js served from our own origin, so that nothing is asked of another one: the loader, the script of
 * each Excel that runs custom functions (Windows, Mac, web), the strings, and the functions' runtime.
 */
import CopyPlugin from 'copy-webpack-plugin';
import { fromRoot } from './common.mjs';

const OFFICE = fromRoot('node_modules/@microsoft/office-js/dist');

const FILES = [
  'office.js',
  'o15apptofilemappingtable.js',
  'custom-functions-runtime.js',
  'excel-web-16.00.js',
  'excel-web-16.00-core.js',
  'excel-win32-16.01.js',
  'excel-win32-16.01-core.js',
  'excel-mac-16.00.js',
  'excel-mac-16.00-core.js',
  '*/office_strings.js',
];

/** Where Microsoft serves Office.js, as its marketplace wants it. */
const CDN = 'https://appsforoffice.microsoft.com';

/**
 * Addresses and rules of the pages: Office.js from our own origin, which then asks nobody else, or from Microsoft's
 * (`--office cdn`), which loads more of its own from there and a page of another origin for its telemetry.
 */
export const officePages = (office) => {
  const isCdn = office === 'cdn';
  const also = isCdn ? ` ${CDN}` : '';
  return {
    script: isCdn ? `${CDN}/lib/1/hosted/office.js` : 'office/office.js',
    runtime: isCdn ? `${CDN}/lib/1/hosted/custom-functions-runtime.js` : '../pane/office/custom-functions-runtime.js',
    panePolicy: `default-src 'self'; script-src 'self' 'wasm-unsafe-eval'${also}; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self' data:; worker-src 'self' blob:; ${isCdn ? `connect-src 'self' https://*.microsoft.com https://*.office.com https://*.office.net; frame-src https://*.microsoft.com https://*.office.com https://*.office.net` : `frame-src 'none'`}; object-src 'none'; base-uri 'self'`,
    functionsPolicy: `default-src 'self'; script-src 'self'${also}; frame-src 'none'; object-src 'none'`,
  };
};

/** Copies Office.js into the pane's folder `office/`, from where the page of the functions has it too. */
export const copyOffice = () =>
  new CopyPlugin({
    patterns: [
      ...FILES.map((from) => ({
        from,
        context: OFFICE,
        to: 'office/[path][name][ext]',
        info: { minimized: true },
      })),
      // Its terms stand beside it.
      { from: 'LICENSE.md', context: fromRoot('node_modules/@microsoft/office-js'), to: 'office/[name][ext]' },
    ],
  });
