/** The page: bar, grid, pane, status line. */
import { FluentProvider } from '@fluentui/react-components';
import { useEffect, useRef, useState, type CSSProperties } from 'react';
import { themeOf } from '../../pane/shell/theme';
import { Bar } from './bar';
import { droppedHandle } from './disk-file';
import { CellExtrasLine, HoveredNoteCard, LinkQuestion } from './extras/cell-extras';
import type { Extras } from './extras/extras';
import { PanelPlace, type Tools } from './lists/tools';
import { PaneFrame, Splitter, usePaneLook, useSystemTheme } from './pane-frame';
import type { KeptStatus, Session } from './session';
import { useStore } from '../../pane/shared/store';
import type { Versions } from './versions';

interface Props {
  readonly session: Session;
  readonly versions: Versions;
  readonly extras: Extras;
  readonly grid: HTMLElement;
  readonly tools: Tools;
  readonly focusGrid: () => void;
}

export function App({ session, versions, extras, grid, tools, focusGrid }: Props) {
  const { title, workbook } = useStore(session);
  const theme = useSystemTheme();
  const [look, change] = usePaneLook();
  const dropping = useDroppedFile(
    (file, handle) => void (handle ? session.openHandle(handle) : session.openFile(file)),
  );
  useEffect(() => {
    document.title = title ? `${title} – Tarebook` : 'Tarebook';
  }, [title]);

  return (
    <FluentProvider theme={themeOf(theme)}>
      {/* Menus are drawn into a copy of the provider's element: the page's own look is on another. */}
      <div className="page">
        <Bar
          session={session}
          versions={versions}
          tools={tools}
          paneShown={look.shown}
          onPaneShown={(shown) => change({ shown })}
        />
        <div className="middle" style={{ '--pane-width': `${look.width}px` } as CSSProperties}>
          <main className="sheet" aria-label="Spreadsheet, F6 leaves it">
            <Grid element={grid} />
          </main>
          <PanelPlace workbook={workbook} tools={tools} onClosed={focusGrid} />
          <aside className="pane" aria-label="Task pane" hidden={!look.shown}>
            <Splitter width={look.width} onWidth={(width) => change({ width })} />
            {workbook && <PaneFrame key={workbook.id} workbook={workbook} theme={theme} />}
          </aside>
        </div>
        <StatusLine session={session} extras={extras} explains={!look.shown} />
        <HoveredNoteCard extras={extras} />
        <LinkQuestion extras={extras} />
        {dropping && <div className="drop">Drop the workbook here to open it</div>}
      </div>
    </FluentProvider>
  );
}

/** The engine draws into an element of its own, which is only put into the page here. */
function Grid({ element }: { readonly element: HTMLElement }) {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => place.current?.append(element), [element]);
  return <div ref={place} className="grid-place" />;
}

const holdsFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;

/** Calls back with a file that is dropped anywhere on the page, and with its handle where the browser gives one; true while one is dragged over it. */
function useDroppedFile(onFile: (file: File, handle: FileSystemFileHandle | undefined) => void): boolean {
  const [over, setOver] = useState(false);
  useEffect(() => {
    const take = (event: DragEvent, isOver: boolean): void => {
      event.preventDefault();
      event.stopPropagation();
      setOver(isOver);
    };
    const listening = new AbortController();
    // In the capture phase: the grid has drops of its own.
    const how = { capture: true, signal: listening.signal };
    window.addEventListener(
      'dragover',
      (event) => {
        if (holdsFiles(event)) take(event, true);
      },
      how,
    );
    window.addEventListener(
      'dragleave',
      ({ relatedTarget }) => {
        if (relatedTarget === null) setOver(false);
      },
      how,
    );
    window.addEventListener(
      'drop',
      (event) => {
        if (!holdsFiles(event)) return;
        take(event, false);
        const file = event.dataTransfer?.files[0];
        if (file) void droppedHandle(event.dataTransfer?.items[0]).then((handle) => onFile(file, handle));
      },
      how,
    );
    return () => listening.abort();
  }, [onFile]);
  return over;
}

/** What the selected row comes to, what is not recalculated, where the edits are, and, with the pane hidden, what is wrong in the selected cell. */
function StatusLine({ session, extras, explains }: Pick<Props, 'session' | 'extras'> & { readonly explains: boolean }) {
  const { busy, kept, selected, workbook, uncalculated, fault, calculated, isStopped } = useStore(session);
  return (
    <footer className="status">
      <CellExtrasLine extras={extras} />
      <span className="status-cell" role="status" aria-label="Selected cell">
        {explains && selected.explanation ? (
          <span className="status-warning">{selected.explanation}</span>
        ) : (
          selected.rowFigures
        )}
      </span>
      {calculated !== undefined && (
        <span className="status-calculation">
          <span role="status" aria-label="Calculation">{`Calculating … ${calculated} %`}</span>{' '}
          <button type="button" onClick={() => session.stopCalculation()}>
            Stop
          </button>
        </span>
      )}
      {isStopped && (
        <span className="status-warning">
          <span role="status" aria-label="Calculation">
            Calculation was stopped: cells keep older values
          </span>{' '}
          <button type="button" onClick={() => session.calculateAll()}>
            Calculate
          </button>
        </span>
      )}
      {(uncalculated > 0 || fault !== undefined) && (
        <span role="status" aria-label="Calculation" className="status-warning">
          {fault === undefined
            ? uncalculatedWords(uncalculated)
            : `Not calculated, all cells keep their values: ${fault}`}
        </span>
      )}
      <span
        role="status"
        aria-label="Where the edits are kept"
        className={kept.how === 'refused' || kept.how === 'elsewhere' ? 'status-warning' : undefined}
      >
        {busy ? `${busy} …` : workbook ? words(kept) : 'Starting …'}
      </span>
      <span className="status-keys">F6 goes on to the next part of the page</span>
      {kept.how === 'elsewhere' && (
        <button type="button" onClick={() => void session.takeOver()}>
          Edit it here
        </button>
      )}
    </footer>
  );
}

type Kept<How extends KeptStatus['how']> = Extract<KeptStatus, { how: How }>;

const WORDS: { readonly [How in KeptStatus['how']]: (kept: Kept<How>) => string } = {
  unedited: () => 'No edits yet',
  waiting: () => 'Keeping …',
  kept: ({ at }) => `Kept in this browser ${timeOf(at)}`,
  refused: ({ why }) => `Not kept in this browser: save as .xlsx before you close the page. ${why}`,
  elsewhere: () => 'Open in another tab: edits made here are not kept in this browser',
};

const words = <How extends KeptStatus['how']>(kept: Kept<How>): string => WORDS[kept.how](kept);

const uncalculatedWords = (cells: number): string =>
  cells === 1 ? '1 cell is not recalculated' : `${cells} cells are not recalculated`;

function timeOf(at: number): string {
  const then = new Date(at);
  const time = then.toLocaleTimeString(undefined, { hour: '2-digit', minute: '2-digit' });
  return then.toDateString() === new Date().toDateString() ? time : `${then.toLocaleDateString()} ${time}`;
}
