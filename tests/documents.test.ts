import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = path.resolve(import.meta.dirname, '..');
const DOCUMENTS = [
  'README.md',
  'DEVELOPERS.md',
  'lib/ENGINE.md',
  'lib/DECISIONS.md',
  'db/DECISIONS.md',
  'app/DECISIONS.md',
  'tests/FIGURES.md',
  'tests/HAZARDS.md',
];

/** Where a path in a document may begin: the root, `lib` whose rooms are named alone, and its rooms of rooms. */
const BEGINNINGS = ['', 'lib', 'lib/exchange', 'lib/summary', 'app/_shell', 'app'];
const ENDS = ['', '.ts', '.tsx', '.mjs', '.test.ts', '.test.tsx'];
/** Made when the program runs, or an address of a page. */
const NOT_FILES = /^(data|backups|test-results|node_modules|\.next|dist|public\/_next|dev)\/|^[a-z]+\/[a-z]+\+|^(mm|ml|kg|g|px|\d)\//;

function pathsIn(document: string): string[] {
  const text = fs.readFileSync(path.join(ROOT, document), 'utf8');
  const named = [...text.matchAll(/`([a-z._][\w.[\]-]*(?:\/[\w.[\]-]+)+)`/g)].map(([, name = '']) => name);
  return [...new Set(named)].filter((name) => !NOT_FILES.test(name));
}

function exists(name: string): boolean {
  return BEGINNINGS.some((beginning) => ENDS.some((end) => fs.existsSync(path.join(ROOT, beginning, name + end))));
}

describe('the documents', () => {
  it.each(DOCUMENTS)('%s names only files that are there', (document) => {
    expect(pathsIn(document).filter((name) => !exists(name))).toEqual([]);
  });

  it('name enough of them for this to mean something', () => {
    expect(DOCUMENTS.flatMap(pathsIn).length).toBeGreaterThan(150);
  });

  it('DEVELOPERS.md is a map of at most 120 lines', () => {
    expect(fs.readFileSync(path.join(ROOT, 'DEVELOPERS.md'), 'utf8').split('\n').length).toBeLessThanOrEqual(121);
  });
});
