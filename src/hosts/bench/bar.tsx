/** The bar above the sheet: what is open, its buttons and their menus, and notices. */
import { Button, Link, MessageBar, MessageBarActions, MessageBarBody } from '@fluentui/react-components';
import { useRef } from 'react';
import { useStore } from '../../pane/shared/store';
import { canPick, pickFile } from './disk-file';
import { Entry, ListButton } from './list-button';
import { ListMenu, type Tools } from './lists/tools';
import { SAMPLES } from './samples';
import type { Session } from './session';
import type { Versions } from './versions';

interface Props {
  readonly session: Session;
  readonly versions: Versions;
  readonly tools: Tools;
  readonly paneShown: boolean;
  readonly onPaneShown: (shown: boolean) => void;
}

export function Bar({ session, versions, tools, paneShown, onPaneShown }: Props) {
  const { title, notice, busy, workbook, savesInto, asksToReplace } = useStore(session);
  const { waiting } = useStore(versions);
  const resting = workbook !== undefined && busy === undefined;
  return (
    <>
      <header className="bar">
        <h1 className="product">Tarebook</h1>
        <span className="title">{title}</span>
        <Link href="reference/index.html" target="_blank" rel="noreferrer">
          Functions
        </Link>
        <OpenMenu session={session} />
        {savesInto !== undefined && (
          <Button size="small" appearance="primary" disabledFocusable={!resting} onClick={() => void session.save()}>
            Save {savesInto}
          </Button>
        )}
        <Button
          size="small"
          appearance={savesInto === undefined ? 'primary' : 'secondary'}
          // A button that is disabled while it works would lose the keyboard.
          disabledFocusable={!resting}
          onClick={() => void session.saveCopy()}
        >
          {savesInto === undefined ? 'Save as .xlsx' : 'Save a copy'}
        </Button>
        <ListMenu tools={tools} disabled={!resting} />
        <MoreMenu session={session} disabled={!resting} />
        <Button size="small" aria-pressed={paneShown} onClick={() => onPaneShown(!paneShown)}>
          {paneShown ? 'Hide pane' : 'Show pane'}
        </Button>
      </header>
      <div role="alert" className="notice-place">
        {waiting && (
          <MessageBar intent="info" politeness="polite">
            <MessageBarBody>
              A new version of Tarebook is here. This page stays as it is until you load the new one.
            </MessageBarBody>
            <MessageBarActions>
              <Button size="small" onClick={() => void versions.load()}>
                Load new version
              </Button>
            </MessageBarActions>
          </MessageBar>
        )}
        {asksToReplace && (
          <MessageBar intent="warning" politeness="polite">
            <MessageBarBody>Replace {savesInto} on the disk with this workbook?</MessageBarBody>
            <MessageBarActions>
              <Button size="small" onClick={() => void session.answerReplace(true)}>
                Replace file
              </Button>
              <Button size="small" onClick={() => void session.saveCopy()}>
                Save a copy
              </Button>
              <Button size="small" onClick={() => void session.answerReplace(false)}>
                Cancel
              </Button>
            </MessageBarActions>
          </MessageBar>
        )}
        {notice && (
          <MessageBar intent={notice.kind === 'done' ? 'success' : notice.kind} politeness="polite">
            <MessageBarBody>{notice.text}</MessageBarBody>
            <MessageBarActions>
              <Button size="small" onClick={() => session.closeNotice()}>
                Close
              </Button>
            </MessageBarActions>
          </MessageBar>
        )}
      </div>
    </>
  );
}

/** A button with a list of what can be opened: a file, a sample, or a workbook that this browser has kept. */
function OpenMenu({ session }: { readonly session: Session }) {
  const { recent } = useStore(session);
  const input = useRef<HTMLInputElement>(null);
  const choose = async (): Promise<void> => {
    if (!canPick()) return input.current?.click();
    const handle = await pickFile();
    if (handle) await session.openHandle(handle);
  };
  return (
    <>
      <input
        ref={input}
        type="file"
        accept=".xlsx,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
        hidden
        aria-label="Workbook file"
        onChange={({ currentTarget }) => {
          const file = currentTarget.files?.[0];
          if (file) void session.openFile(file);
          // The same file can be chosen again.
          currentTarget.value = '';
        }}
      />
      <ListButton id="open-list" title="Open …" about="What to open">
        <Entry onClick={() => void choose()} title="Workbook file (.xlsx) …" />
        <Entry
          onClick={() => void session.openEmpty()}
          title="New workbook"
          about="Empty; the task pane makes it ready for a parts list"
        />
        <h2>New from a sample</h2>
        {SAMPLES.map((sample) => (
          <Entry
            key={sample.address}
            onClick={() => void session.openSample(sample)}
            title={sample.title}
            about={sample.about}
          />
        ))}
        {recent.length > 0 && <h2>Kept in this browser</h2>}
        {recent.map(({ id, title, keptAt }) => (
          <Entry
            key={id}
            onClick={() => void session.openKept(id)}
            title={title}
            about={new Date(keptAt).toLocaleString()}
          />
        ))}
      </ListButton>
    </>
  );
}

/** What is done with a workbook beside opening and saving it. */
const MoreMenu = ({ session, disabled }: { readonly session: Session; readonly disabled: boolean }) => (
  <ListButton id="more-list" title="More …" about="More to do with the workbook" disabled={disabled}>
    <Entry
      onClick={() => void session.saveValues()}
      title="Save as values"
      about="A copy for those who have no Tarebook: TARE formulas become values, ordinary formulas stay"
    />
    <Entry
      onClick={() => session.print()}
      title="Print sheet"
      about="The cells of the sheet in view, landscape, as wide as the page"
    />
  </ListButton>
);
