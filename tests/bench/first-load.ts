import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import zlib from 'node:zlib';
import { AIMS, besideAim } from './aims';

const BUILD = path.resolve(import.meta.dirname, '../../.next');
const PAGES = path.join(BUILD, 'server/app');
const FONTS = path.resolve(import.meta.dirname, '../../app/_look/fonts');
const MANIFEST = 'page_client-reference-manifest.js';
/** The pages that work in the browser: a visit is typed or corrected there. */
const SHEETS = /visits\/(new|\[visitId\]\/correct)$/;

type Manifests = Record<string, { readonly entryJSFiles: Record<string, readonly string[]> }>;

/**
 * Script that a browser loads for each page at first, gzipped, beside what any page of Next loads (its root scripts).
 *
 * Read from the manifests of a production build; without a build it says so. Names the pages that pass their aim, and the weight of the type.
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
  const aimOf = (page: string) => (SHEETS.test(page) ? AIMS.firstLoadOfSheet : AIMS.firstLoad);
  const over = pages.filter(({ page, bytes }) => bytes > empty * aimOf(page)).sort((one, other) => other.bytes - one.bytes);
  console.log(
    `First load: ${pages.length - over.length} of ${pages.length} pages within ${AIMS.firstLoad} (the sheet ${AIMS.firstLoadOfSheet}) of the ${kilobytes(empty)} of script, gzipped, of an empty page of Next`,
  );
  for (const { page, bytes } of over) console.log(`  more: ${page} ${kilobytes(bytes)}, ${besideAim(page, bytes / empty, aimOf(page))}`);
  const fonts = fs.readdirSync(FONTS).filter((name) => name.endsWith('.woff2'));
  const weights = fonts.map((name) => `${name} ${kilobytes(fs.statSync(path.join(FONTS, name)).size)}`);
  console.log(`  type, loaded once and kept: ${weights.join(', ')}`);
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
