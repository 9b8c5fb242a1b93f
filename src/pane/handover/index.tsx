/** Files where a pane cannot save any: rows become a new sheet, other files a text to copy; and the pane says so. */
import { Button, makeStyles, tokens } from '@fluentui/react-components';
import { useRef, useState } from 'react';
import { decimalNumber } from '../../core/quantity';
import { ownRecords, unguard } from '../../project';
import { freeSheetName, type CellInput, type Workbook } from '../../sheet';
import { mark, t, type Marked } from '../locale';
import { BAR } from '../shared/looks';
import { refusal } from '../shared/refusal';
import { Store, useStore } from '../shared/store';

type Handed =
  | { readonly kind: 'sheet'; readonly name: string; readonly sheet: string }
  | { readonly kind: 'text'; readonly name: string; readonly text: string }
  | { readonly kind: 'refused'; readonly name: string; readonly why: string };

export class HandOverStore extends Store<{ readonly handed?: Handed | undefined }> {
  constructor(private readonly workbook: Workbook) {
    super({});
  }

  /** Takes a file that would be saved elsewhere. */
  async take(name: string, text: string): Promise<void> {
    if (!name.endsWith('.csv')) return this.set({ handed: { kind: 'text', name, text } });
    const handed = await this.addSheet(name, text).then(
      (sheet): Handed => ({ kind: 'sheet', name, sheet }),
      (error: unknown): Handed => ({ kind: 'refused', name, why: refusal(error) }),
    );
    this.set({ handed });
  }

  close(): void {
    this.set({ handed: undefined });
  }

  private async addSheet(name: string, text: string): Promise<string> {
    const data = ownRecords(text).filter((fields) => fields.some((field) => field !== ''));
    const columns = Math.max(1, ...data.map((row) => row.length));
    const cells = data.map((row) => Array.from({ length: columns }, (_none, at) => cellOf(row[at] ?? '')));
    const taken = new Set((await this.workbook.sheets()).map((one) => one.name.toLowerCase()));
    const sheet = freeSheetName(name.replace(/\.[^.]*$/, ''), taken);
    await this.workbook.apply(t('New sheet {sheet}', { sheet }), [
      { kind: 'addSheet', name: sheet },
      ...(cells.length > 0
        ? [
            { kind: 'write', range: { sheet, row: 0, column: 0, rows: cells.length, columns }, cells } as const,
            { kind: 'format', range: { sheet, row: 0, column: 0, rows: 1, columns }, bold: true } as const,
          ]
        : []),
    ]);
    await this.workbook.select({ sheet, row: 0, column: 0, rows: 1, columns: 1 });
    return sheet;
  }
}

const cellOf = (text: string): CellInput => (text === '' ? null : (decimalNumber(text) ?? unguard(text)));

const useStyles = makeStyles({
  bar: BAR,
  said: { flex: '1 1 100%', minWidth: 0 },
  text: {
    flex: '1 1 100%',
    height: '96px',
    color: tokens.colorNeutralForeground1,
    backgroundColor: tokens.colorNeutralBackground1,
    border: `1px solid ${tokens.colorNeutralStrokeAccessible}`,
  },
});

export function HandedOver({ store }: { readonly store: HandOverStore }) {
  const { handed } = useStore(store);
  const styles = useStyles();
  const field = useRef<HTMLTextAreaElement>(null);
  const [copied, setCopied] = useState<Handed>();
  const copy = async (): Promise<void> => {
    if (handed?.kind !== 'text') return;
    try {
      await navigator.clipboard.writeText(handed.text);
    } catch {
      // Where the clipboard is closed to scripts, the text is marked, and the person's own copy takes it.
      field.current?.select();
      if (!document.execCommand('copy')) return;
    }
    setCopied(handed);
  };
  return (
    <div role="status" className={handed && styles.bar}>
      {handed && (
        <>
          <span className={styles.said}>
            {copied === handed
              ? t('Copied. Paste it into a text editor and save it as {name}.', { name: handed.name })
              : t(WORDS[handed.kind], { ...handed })}
          </span>
          {handed.kind === 'text' && (
            <>
              <textarea
                ref={field}
                readOnly
                className={styles.text}
                aria-label={t('Text of {name}', { name: handed.name })}
                value={handed.text}
              />
              <Button size="small" appearance="primary" onClick={() => void copy()}>
                {t('Copy text')}
              </Button>
            </>
          )}
          <Button size="small" onClick={() => store.close()}>
            {t('Close')}
          </Button>
        </>
      )}
    </div>
  );
}

const WORDS: Readonly<Record<Handed['kind'], Marked>> = {
  sheet: mark(
    'This Excel lets a pane neither save a file nor print. The rows are on the new sheet {sheet}: save or print it from Excel.',
  ),
  text: mark(
    'This Excel lets a pane neither save a file nor print. Copy the text, paste it into a text editor and save it as {name}.',
  ),
  refused: mark('{name} could not be put on a new sheet. {why}'),
};
