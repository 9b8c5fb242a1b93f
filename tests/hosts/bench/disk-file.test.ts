import { describe, expect, it } from 'vitest';
import { DiskFile } from '../../../src/hosts/bench/disk-file';

/** A file as the browser's handle shows it: what is written goes beside it until the writing is closed. */
class FakeFile {
  constructor(
    public text: string,
    private time = 1,
  ) {}
  /** What happens while a writing goes on. */
  meanwhile: () => void = () => undefined;
  aborted = 0;

  change(text: string): void {
    this.text = text;
    this.time += 1;
  }

  readonly handle = {
    kind: 'file',
    name: 'mine.xlsx',
    getFile: () => Promise.resolve(new File([this.text], 'mine.xlsx', { lastModified: this.time })),
    createWritable: () => {
      let beside = '';
      return Promise.resolve({
        write: (bytes: Uint8Array) => {
          beside += new TextDecoder().decode(bytes);
          this.meanwhile();
          return Promise.resolve();
        },
        close: () => Promise.resolve(this.change(beside)),
        abort: () => Promise.resolve(void (this.aborted += 1)),
      });
    },
  } as unknown as FileSystemFileHandle;
}

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

describe('a file that is saved into', () => {
  it('has the bytes, one saving after the other', async () => {
    const file = new FakeFile('old');
    const { disk } = await DiskFile.of(file.handle);
    await disk.replace(bytes('new'));
    await disk.replace(bytes('newer'));
    expect(file.text).toBe('newer');
  });

  it.each([
    ['before', (file: FakeFile) => file.change('theirs')],
    ['while', (file: FakeFile) => void (file.meanwhile = () => file.change('theirs'))],
  ])('is left as it is where another program writes into it %s it is saved', async (_when, act) => {
    const file = new FakeFile('old');
    const { disk } = await DiskFile.of(file.handle);
    act(file);
    await expect(disk.replace(bytes('mine'))).rejects.toThrow('mine.xlsx was changed by another program');
    expect(file.text).toBe('theirs');
  });

  it('keeps nothing beside it of a writing that was given up', async () => {
    const file = new FakeFile('old');
    const { disk } = await DiskFile.of(file.handle);
    file.meanwhile = () => file.change('theirs');
    await expect(disk.replace(bytes('mine'))).rejects.toThrow();
    expect(file.aborted).toBe(1);
  });
});
