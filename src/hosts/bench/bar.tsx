import { Button, Link, MessageBar, MessageBarActions, MessageBarBody } from '@fluentui/react-components';
import { OpenMenu } from './open-menu';
import type { Session } from './session';
import { useStore } from './store';

interface Props {
  readonly session: Session;
  readonly paneShown: boolean;
  readonly onPaneShown: (shown: boolean) => void;
}

export function Bar({ session, paneShown, onPaneShown }: Props) {
  const { title, notice, busy, workbook } = useStore(session);
  return (
    <>
      <header className="bar">
        <h1 className="product">Tarebook</h1>
        <span className="title">{title}</span>
        <Link href="reference/index.html" target="_blank" rel="noreferrer">
          Functions
        </Link>
        <OpenMenu session={session} />
        <Button
          size="small"
          appearance="primary"
          disabled={!workbook || busy !== undefined}
          onClick={() => void session.save()}
        >
          Save as .xlsx
        </Button>
        <Button size="small" aria-pressed={paneShown} onClick={() => onPaneShown(!paneShown)}>
          {paneShown ? 'Hide pane' : 'Show pane'}
        </Button>
      </header>
      <div role="alert" className="notice-place">
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
