import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import zlib from 'node:zlib';

const BUILD = path.resolve(import.meta.dirname, '../../.next');
const PAGES = path.join(BUILD, 'server/app');
const MANIFEST = 'page_client-reference-manifest.js';
/** What a page may load beside Next's own scripts. The sheet is the one that works in the browser. */
const ALLOWED_BYTES = 15_000;

type Manifests = Record<string, { readonly entryJSFiles: Record<string, readonly string[]> }>;

/**
 * Script that a browser loads for each page at first, gzipped, beside what any page of Next loads (its root scripts).
 *
 * Read from the manifests of a production build; without a build it says so. Names the pages that pass the allowance.
 */
export function benchFirstLoad(): void {
  const root = path.join(BUILD, 'build-manifest.json');
  if (!fs.existsSync(root)) {
    console.log('First load: no production build stands in .next; run `npx next build` first.');
    return;
  }
  const { rootMainFiles } = JSON.parse(fs.readFileSync(root, 'utf8')) as { rootMainFiles: string[] };
  const empty = gzipped(rootMainFiles);
  const pages = manifestsIn(PAGES).map((manifest) => ({
    page: path.dirname(path.relative(PAGES, manifest)),
    bytes: gzipped([...new Set([...rootMainFiles, ...scriptsOf(manifest)])]),
  }));
  const over = pages.filter(({ bytes }) => bytes > empty + ALLOWED_BYTES).sort((one, other) => other.bytes - one.bytes);
  const most = Math.max(...pages.filter((page) => !over.includes(page)).map(({ bytes }) => bytes));
  console.log(
    `First load of ${pages.length - over.length} pages: at most ${kilobytes(most)} of script gzipped against ${kilobytes(empty)} for an empty page of Next: ${(most / empty).toFixed(2)} times`,
  );
  for (const { page, bytes } of over) console.log(`  more: ${page} ${kilobytes(bytes)}, ${(bytes / empty).toFixed(2)} times`);
}

function manifestsIn(folder: string): string[] {
  return fs
    .readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => path.basename(name) === MANIFEST)
    .map((name) => path.join(folder, name));
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

function kilobytes(bytes: number): string {
  return `${(bytes / 1000).toFixed(0)} kB`;
}
