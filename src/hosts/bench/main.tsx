/** The bench: Tarebook without Excel, a spreadsheet in the browser with the task pane beside it. */
import { createRoot } from 'react-dom/client';
import { App } from './app';
import './bench.css';
import { Extras } from './extras/extras';
import { listenToKeys, openChoicesByKey, takeFromFreshListOnly } from './keys';
import { FilterButtons } from './lists/filter-buttons';
import { Tools } from './lists/tools';
import { download } from '../../pane/shared/paper';
import { onSystemTheme, systemTheme } from './pane-frame';
import { pasteInert, pasteLengths } from './paste';
import { Session } from './session';
import { endEditing, focusGrid, showSelectedCell, startSpreadsheet } from './spreadsheet';
import { Versions } from './versions';
import { offerToScripts } from './window';

const grid = document.createElement('div');
grid.className = 'grid';
const engine = startSpreadsheet(grid);
const followTheme = (): void => engine.api.toggleDarkMode(systemTheme() === 'dark');
followTheme();
onSystemTheme(followTheme);
const session = new Session(engine, saveFile, giveKeyboardToGrid);
const toGrid = (): void => void focusGrid(engine, grid);
const extras = new Extras(engine, session, grid, toGrid);
const tools = new Tools(() => endEditing(engine));
const versions = new Versions(() => session.flush());

offerToScripts(() => session.state.workbook);
document.addEventListener('visibilitychange', () => {
  if (document.visibilityState === 'hidden') void session.flush();
});
window.addEventListener('beforeunload', (event) => {
  if (session.wouldLose) event.preventDefault();
});

// The browser's own print, from its menu or by Ctrl+P.
window.addEventListener('beforeprint', () => session.layPaper());
listenToKeys({
  focusGrid: toGrid,
  save: () => void session.save(),
  find: () => tools.open('find'),
  filter: () => tools.open('filter'),
});
createRoot(document.getElementById('root')!).render(
  <App session={session} versions={versions} extras={extras} grid={grid} tools={tools} focusGrid={toGrid} />,
);
void session.start().then(() => {
  const { injector } = engine;
  const buttons = new FilterButtons(
    injector,
    () => session.state.workbook,
    () => tools.open('filter'),
  );
  openChoicesByKey(injector, (sheet, row, column) => buttons.openAt(sheet, row, column));
  takeFromFreshListOnly(injector);
  pasteInert(injector);
  pasteLengths(injector);
  openLaunched();
  // Without it the page works as long as there is a network.
  void versions.start().catch(() => undefined);
});

/** A workbook that was opened with the app from outside, by a double click for instance. */
function openLaunched(): void {
  const { launchQueue } = window as {
    launchQueue?: { setConsumer(take: (launch: { files?: readonly FileSystemFileHandle[] }) => void): void };
  };
  launchQueue?.setConsumer(({ files }) => {
    if (files?.[0]) void session.openHandle(files[0]);
  });
}

/** A workbook that is opened takes what is typed, unless the person is in the pane. */
async function giveKeyboardToGrid(): Promise<void> {
  if (!document.activeElement?.closest('.pane')) await focusGrid(engine, grid);
  showSelectedCell(engine);
}

function saveFile(name: string, bytes: Uint8Array): void {
  const type = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';
  download(name, new Blob([bytes as BlobPart], { type }));
}
