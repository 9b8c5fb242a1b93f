/** Which licence a package has, and whether it asks for no more than its notice to be kept. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** What is read of a package.json. */
export interface Manifest {
  readonly name?: string;
  readonly version?: string;
  readonly license?: unknown;
  readonly licenses?: unknown;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly optionalDependencies?: Readonly<Record<string, string>>;
  readonly peerDependencies?: Readonly<Record<string, string>>;
}

/** Licences under which a package may be bundled into an MIT-licensed program with its notice alone. */
export const PERMISSIVE: readonly string[] = [
  '0BSD',
  'Apache-2.0',
  'BlueOak-1.0.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'CC0-1.0',
  'ISC',
  'MIT',
  'Unlicense',
  'Zlib',
];

/** A sentence that stands in one licence's text and in no other's. */
const TEXTS: readonly (readonly [string, RegExp])[] = [
  ['Apache-2.0', /Apache License\s+Version 2\.0/],
  ['MIT', /Permission is hereby granted, free of charge, to any person obtaining a copy/],
  ['BSD-3-Clause', /Redistribution and use in source and binary forms[\s\S]*Neither the name/],
  ['ISC', /Permission to use, copy, modify, and\/or distribute this software for any purpose with or without fee/],
];

const named = (licence: unknown): string | undefined =>
  typeof licence === 'string'
    ? licence
    : typeof licence === 'object' && licence !== null && 'type' in licence
      ? named(licence.type)
      : undefined;

/** The licence that package.json names, in its present form or an old one, else that of the package's licence file. */
export function licenceOf(folder: string, manifest: Manifest): string | undefined {
  const told =
    named(manifest.license) ??
    (Array.isArray(manifest.licenses) ? manifest.licenses.map(named).join(' OR ') : undefined);
  if (told) return told;
  const file = readdirSync(folder).find((name) => /^licen[cs]e/i.test(name));
  if (file === undefined) return undefined;
  const text = readFileSync(join(folder, file), 'utf8');
  return TEXTS.find(([, sentence]) => sentence.test(text))?.[0];
}

/** True when an SPDX expression leaves a permissive choice: one of its OR parts, every AND part of it. */
export function isPermissive(licence: string | undefined): boolean {
  if (licence === undefined) return false;
  // Brackets inside an expression are rare: one that is not the whole is refused and read by a person.
  const bare = licence.trim().replace(/^\(([^()]*)\)$/, '$1');
  return bare.split(/ OR /i).some((choice) => choice.split(/ AND /i).every((part) => PERMISSIVE.includes(part.trim())));
}
