/** A line on stderr that says how far long work is: at once on a terminal, else only once it takes long. */
const PATIENCE_MS = 2000;

export class Progress {
  private readonly started = Date.now();
  private shown = 0;
  private width = 0;

  constructor(private readonly stream: NodeJS.WriteStream = process.stderr) {}

  say(text: string): void {
    const now = Date.now();
    if (this.stream.isTTY) {
      this.stream.write(`\r${text.padEnd(this.width)}`);
      this.width = text.length;
    } else if (now - this.started >= PATIENCE_MS && now - this.shown >= PATIENCE_MS) {
      this.stream.write(`${text}\n`);
      this.shown = now;
    }
  }

  /** Takes the line away. */
  done(): void {
    if (this.stream.isTTY && this.width) this.stream.write(`\r${' '.repeat(this.width)}\r`);
    this.width = 0;
  }
}
