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

/** Copies Office.js into the pane's folder `office/`, from where the page of the functions has it too. */
export const copyOffice = () =>
  new CopyPlugin({
    patterns: FILES.map((from) => ({
      from,
      context: OFFICE,
      to: 'office/[path][name][ext]',
      info: { minimized: true },
    })),
  });
