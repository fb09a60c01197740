import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import zlib from 'node:zlib';

const BUILD = path.resolve(import.meta.dirname, '../../.next');
const SHEET = '/patients/[patientId]/visits/new/page';

type Manifests = Record<string, { readonly entryJSFiles: Record<string, readonly string[]> }>;

/**
 * Script that a browser loads for the ladder sheet at first, gzipped, against what any page of Next loads (its root scripts).
 *
 * Read from the manifests of a production build; without a build, or one without the sheet, it says so.
 */
export function benchFirstLoad(): void {
  const manifest = path.join(BUILD, 'server/app', `${SHEET}_client-reference-manifest.js`);
  const root = path.join(BUILD, 'build-manifest.json');
  if (!fs.existsSync(root) || !fs.existsSync(manifest)) {
    console.log('First load of the ladder sheet: no production build of it stands in .next; run `npx next build` first.');
    return;
  }
  const { rootMainFiles } = JSON.parse(fs.readFileSync(root, 'utf8')) as { rootMainFiles: string[] };
  const scripts = new Set([...rootMainFiles, ...scriptsOf(manifest)]);
  const empty = gzipped(rootMainFiles);
  const sheet = gzipped([...scripts]);
  const kilobytes = (bytes: number) => `${(bytes / 1000).toFixed(0)} kB`;
  console.log(
    `First load of the ladder sheet: ${kilobytes(sheet)} of script gzipped against ${kilobytes(empty)} for an empty page of Next: ${(sheet / empty).toFixed(2)} times`,
  );
}

function scriptsOf(manifest: string): string[] {
  const holder = globalThis as unknown as { __RSC_MANIFEST?: Manifests };
  holder.__RSC_MANIFEST = {};
  createRequire(import.meta.url)(manifest);
  return Object.values(holder.__RSC_MANIFEST).flatMap(({ entryJSFiles }) => Object.values(entryJSFiles).flat());
}

function gzipped(files: readonly string[]): number {
  return files.reduce((sum, file) => sum + zlib.gzipSync(fs.readFileSync(path.join(BUILD, file))).length, 0);
}
