/** What of a range's look the add-in sets: format, font, fill, and the choices of its cells. */
import { ClientObject, type FakeContext } from './client-object';

/** The cells of a range, as far as their look goes. */
export interface Painted {
  paint(look: Record<string, unknown>): void;
  /** A part of the look where all cells share it, else null. */
  shared(part: string, otherwise: unknown): unknown;
}

export class Format extends ClientObject {
  readonly font: Font;
  readonly fill: Fill;
  constructor(
    context: FakeContext,
    private readonly range: Painted,
  ) {
    super(context, ['columnWidth']);
    this.font = new Font(context, range);
    this.fill = new Fill(context, range);
  }
  protected read(): unknown {
    return this.range.shared('columnWidth', 48);
  }
  protected override write(name: string, value: unknown): void {
    this.range.paint({ [name]: value });
  }
}

class Font extends ClientObject {
  constructor(
    context: FakeContext,
    private readonly range: Painted,
  ) {
    super(context, ['bold']);
  }
  protected read(): unknown {
    return this.range.shared('bold', false);
  }
  protected override write(name: string, value: unknown): void {
    this.range.paint({ [name]: value });
  }
}

class Fill extends ClientObject {
  constructor(
    context: FakeContext,
    private readonly range: Painted,
  ) {
    super(context, ['color']);
  }
  protected read(): unknown {
    return this.range.shared('color', '#FFFFFF');
  }
  protected override write(name: string, value: unknown): void {
    this.range.paint({ [name]: value });
  }
  clear(): void {
    this.context.enqueue(() => this.range.paint({ color: undefined }));
  }
}

export class DataValidation extends ClientObject {
  constructor(
    context: FakeContext,
    private readonly range: Painted,
  ) {
    super(context, ['rule', 'type']);
  }
  protected read(name: string): unknown {
    const rule = this.range.shared('rule', undefined);
    return name === 'type' ? (rule ? 'List' : 'None') : (rule ?? {});
  }
  protected override write(name: string, value: unknown): void {
    this.range.paint({ [name]: value });
  }
  clear(): void {
    this.context.enqueue(() => this.range.paint({ rule: undefined }));
  }
}
