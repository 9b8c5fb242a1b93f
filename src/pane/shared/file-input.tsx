/** The file field behind a button that brings in a CSV file: unseen, opened by the button. */
import type { RefObject } from 'react';

interface Props {
  readonly input: RefObject<HTMLInputElement | null>;
  readonly label: string;
  onFile(name: string, bytes: Promise<ArrayBuffer>): void;
}

export function CsvFileInput({ input, label, onFile }: Props) {
  return (
    <input
      ref={input}
      type="file"
      hidden
      accept=".csv,.tsv,.txt,text/csv,text/plain"
      aria-label={label}
      onChange={({ target }) => {
        const [chosen] = target.files ?? [];
        if (chosen) onFile(chosen.name, chosen.arrayBuffer());
        // The same file can be chosen again after it was changed.
        target.value = '';
      }}
    />
  );
}
