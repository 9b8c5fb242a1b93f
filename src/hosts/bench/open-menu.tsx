import { useRef } from 'react';
import { canPick, pickFile } from './disk-file';
import { Entry, ListButton } from './list-button';
import { SAMPLES } from './samples';
import type { Session } from './session';
import { useStore } from './store';

/** A button with a list of what can be opened: a file, a sample, or a workbook that this browser has kept. */
export function OpenMenu({ session }: { readonly session: Session }) {
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
