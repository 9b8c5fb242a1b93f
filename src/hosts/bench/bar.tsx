import { Button, Menu, MenuDivider, MenuGroup, MenuGroupHeader, MenuItem, MenuList, MenuPopover, MenuTrigger, MessageBar, MessageBarActions, MessageBarBody } from '@fluentui/react-components';
import { useRef } from 'react';
import { SAMPLES } from './samples';
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
        <OpenMenu session={session} />
        <Button size="small" appearance="primary" disabled={!workbook || busy !== undefined} onClick={() => void session.save()}>
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

/** A file, a sample, or a workbook that this browser has kept. */
function OpenMenu({ session }: { readonly session: Session }) {
  const { recent } = useStore(session);
  const input = useRef<HTMLInputElement>(null);
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
          // The same file can be chosen again.
          currentTarget.value = '';
          if (file) void session.openFile(file);
        }}
      />
      <Menu>
        <MenuTrigger disableButtonEnhancement>
          <Button size="small">Open …</Button>
        </MenuTrigger>
        <MenuPopover>
          <MenuList>
            <MenuItem onClick={() => input.current?.click()}>Workbook file (.xlsx) …</MenuItem>
            <MenuDivider />
            <MenuGroup>
              <MenuGroupHeader>New from a sample</MenuGroupHeader>
              {SAMPLES.map((sample) => (
                <MenuItem key={sample.address} secondaryContent={sample.about} onClick={() => void session.openSample(sample)}>
                  {sample.title}
                </MenuItem>
              ))}
            </MenuGroup>
            {recent.length > 0 && (
              <MenuGroup>
                <MenuGroupHeader>Kept in this browser</MenuGroupHeader>
                {recent.map(({ id, title, keptAt }) => (
                  <MenuItem key={id} secondaryContent={new Date(keptAt).toLocaleString()} onClick={() => void session.openKept(id)}>
                    {title}
                  </MenuItem>
                ))}
              </MenuGroup>
            )}
          </MenuList>
        </MenuPopover>
      </Menu>
    </>
  );
}
