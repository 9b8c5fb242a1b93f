import { Button, Link, MessageBar, MessageBarActions, MessageBarBody } from '@fluentui/react-components';
import { ListMenu } from './lists/list-menu';
import type { Tools } from './lists/tools';
import { MoreMenu } from './more-menu';
import { OpenMenu } from './open-menu';
import type { Session } from './session';
import { useStore } from './store';
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
