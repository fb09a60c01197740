import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { ACTIONS, PAGES, ROUTES } from '@/tests/e2e/access-table';

const APP = path.resolve(import.meta.dirname, '../../app');

const files = fs.readdirSync(APP, { recursive: true, encoding: 'utf8' }).map((name) => name.split(path.sep).join('/'));
const source = (file: string) => fs.readFileSync(path.join(APP, file), 'utf8');

/** The names of exported functions of a file, as `export async function name(` or `export const name =`. */
function exported(file: string): string[] {
  return [...source(file).matchAll(/^export (?:async function|function|const) (\w+)/gm)].map(([, name]) => name ?? '');
}

describe('the table of who may use what', () => {
  it('has every page', () => {
    expect(Object.keys(PAGES).sort()).toEqual(files.filter((file) => /(^|\/)page\.tsx$/.test(file)).sort());
  });

  it('has every method of every route', () => {
    const routes = files.filter((file) => /(^|\/)route\.ts$/.test(file));
    const methods = routes.flatMap((file) => exported(file).map((name) => `${name} ${file}`));
    expect(Object.keys(ROUTES).sort()).toEqual(methods.filter((one) => /^(GET|HEAD|POST|PUT|PATCH|DELETE|OPTIONS) /.test(one)).sort());
  });

  it('has every server action', () => {
    const actionFiles = files.filter((file) => /\.tsx?$/.test(file) && /^\s*['"]use server['"]/m.test(source(file)));
    expect(Object.keys(ACTIONS).sort()).toEqual(actionFiles.flatMap((file) => exported(file).map((name) => `${file} ${name}`)).sort());
  });
});
