/** The page: bar, grid, pane, status line. */
import { FluentProvider } from '@fluentui/react-components';
import { useEffect, useRef, useState, type CSSProperties } from 'react';
import { themeOf } from '../../pane/shell/theme';
import { Bar } from './bar';
import { useDroppedFile } from './dropped-file';
import { HoveredNoteCard } from './extras/cell-extras';
import type { Extras } from './extras/extras';
import { LinkQuestion } from './extras/link-question';
import { PanelPlace } from './lists/panel-place';
import type { Tools } from './lists/tools';
import { PaneFrame } from './pane-frame';
import { readPaneLook, writePaneLook, type PaneLook } from './pane-look';
import type { Session } from './session';
import { Splitter } from './splitter';
import { StatusLine } from './status-line';
import { useStore } from './store';
import { useSystemTheme } from './theme';
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
  const [look, setLook] = useState(readPaneLook);
  const dropping = useDroppedFile(
    (file, handle) => void (handle ? session.openHandle(handle) : session.openFile(file)),
  );
  const change = (next: Partial<PaneLook>): void => {
    const all = { ...look, ...next };
    setLook(all);
    writePaneLook(all);
  };
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
