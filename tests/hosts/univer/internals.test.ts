/** The engine's version and the members that are reached into. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { Univer } from '@univerjs/core';
import { describe, expect, it } from 'vitest';
import { INTERCEPTOR_POINT, SheetInterceptorService } from '@univerjs/sheets';
import { checkInternals, ENGINE_VERSION, MARKS_TEXT_NUMBERS } from '../../../src/hosts/univer/internals';
import { root } from '../../helpers/bench-page';

const engine = join(root, 'node_modules', '@univerjs');

describe('what is reached into of the engine', () => {
  it('was looked up in the version that is installed, of every package', () => {
    const versions = readdirSync(engine)
      .filter((name) => !['icons', 'protocol'].includes(name))
      .map((name) => {
        const { version } = JSON.parse(readFileSync(join(engine, name, 'package.json'), 'utf8')) as { version: string };
        return `${name} ${version}`;
      });
    expect(versions.filter((one) => !one.endsWith(` ${ENGINE_VERSION}`))).toEqual([]);
  });

  it('is there, and one that is missing is named before anything starts', () => {
    const univer = new Univer();
    expect(() => checkInternals(univer)).not.toThrow();
    expect(() => checkInternals(univer, [['the undo stack', {}, '_getUndoStack']])).toThrow(
      `lacks the undo stack (_getUndoStack). See src/hosts/univer/internals.ts.`,
    );
    univer.dispose();
  });

  it('has the mark of texts that could be numbers by the word that it is known by', () => {
    const face = readFileSync(join(engine, 'sheets-ui', 'lib', 'es', 'index.js'), 'utf8');
    expect(face.split(MARKS_TEXT_NUMBERS)).toHaveLength(2);
    const service = new Univer().__getInjector().createInstance(SheetInterceptorService);
    const asked: unknown[] = [];
    service.intercept(INTERCEPTOR_POINT.CELL_CONTENT, {
      handler: (cell, { rawData }, next) => {
        asked.push(rawData?.v, 'disableForceStringMark');
        return next(cell);
      },
    });
    const values = ['Rib 4', '12', '1/2', '20%', 'March', 12, 'Rib 4', '12'];
    for (const v of values) {
      const place = { rawData: { v } } as never;
      expect(service.fetchThroughInterceptors(INTERCEPTOR_POINT.CELL_CONTENT)({ v }, place)).toEqual({ v });
    }
    expect(asked.filter((one) => one !== 'disableForceStringMark')).toEqual(['12', '1/2', '20%', 12, '12']);
  });

  it('stands in one file', () => {
    const folders = ['src/hosts/univer', 'src/hosts/bench'];
    const reaches = folders.flatMap((folder) =>
      readdirSync(join(root, folder))
        .filter((name) => /\.tsx?$/.test(name) && name !== 'internals.ts')
        .filter((name) =>
          /__getInjector|\bas any\b|\.(_[a-z]\w*)/.test(readFileSync(join(root, folder, name), 'utf8')),
        ),
    );
    expect(reaches).toEqual([]);
  });
});
