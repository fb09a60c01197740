import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = path.resolve(import.meta.dirname, '../..');
const filesIn = (folder: string, end: RegExp) =>
  fs
    .readdirSync(path.join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .map((name) => path.posix.join(folder, name.split(path.sep).join('/')))
    .filter((file) => end.test(file));
const source = (file: string) => fs.readFileSync(path.join(ROOT, file), 'utf8').replace(/\/\*[\s\S]*?\*\//g, '');

const SCREENS = filesIn('app', /\.tsx$/);
const SHEETS = filesIn('app', /\.css$/);
const MODULES = SHEETS.filter((file) => file.endsWith('.module.css'));
const GLOBAL = SHEETS.filter((file) => !file.endsWith('.module.css'));
const isPaper = (selector: string) => selector.startsWith('@page') || selector.startsWith('@bottom');

/** Rules of a style sheet, as what stands before a brace and the declarations after it. */
function rulesOf(file: string): { readonly selector: string; readonly body: string }[] {
  return [...source(file).matchAll(/(?<=^|[{};])\s*([^{};]+)\{(?=([^{}]*))/g)].map(([, selector = '', body = '']) => ({ selector, body }));
}

const classesIn = (text: string) => [...text.matchAll(/\.(-?[a-zA-Z][\w-]*)/g)].map(([, name = '']) => name);
const globalsIn = (text: string) => [...text.matchAll(/:global\(([^)]*)\)/g)].flatMap(([, inside = '']) => classesIn(inside));
const own = (selector: string) => classesIn(selector.startsWith('@') ? '' : selector.replace(/:global\([^)]*\)/g, ''));

const LOOK = new Set(GLOBAL.flatMap((file) => rulesOf(file)).flatMap(({ selector }) => own(selector)));

/** Words in the class names of a screen: in quotes, or between the parts of a template. */
function wordsOf(text: string): string[] {
  const given = [...text.matchAll(/className=("[^"]*"|\{(?:[^{}]|\{[^{}]*\})*\})/g)].map(([, one = '']) =>
    one.replace(/[=!]== '[^']*'/g, ''),
  );
  const quoted = given.flatMap((one) => [...one.matchAll(/(["'`])(.*?)\1/g)].map(([, , inside = '']) => inside));
  return quoted.flatMap((one) => one.replace(/\$\{[^}]*\}/g, ' ').split(/\s+/)).filter(Boolean);
}

/** What a screen takes of the modules it imports: the module's path, and the class. */
function takenIn(file: string): { readonly module: string; readonly name: string }[] {
  const text = source(file);
  return [...text.matchAll(/^import (\w+) from '([^']+\.module\.css)';$/gm)].flatMap(([, as = '', from = '']) => {
    const module = from.startsWith('@/') ? from.slice(2) : path.posix.join(path.posix.dirname(file), from);
    return [...text.matchAll(new RegExp(`\\b${as}\\.(\\w+)`, 'g'))].map(([, name = '']) => ({ module, name }));
  });
}

describe('styles', () => {
  const taken = SCREENS.flatMap(takenIn);

  it('a class that a screen takes from a module has a rule there, and every rule of a module is taken', () => {
    const rules = MODULES.flatMap((module) => rulesOf(module).flatMap(({ selector }) => own(selector).map((name) => `${module} ${name}`)));
    expect(rules.length).toBeGreaterThan(300);
    expect([...new Set(taken.map(({ module, name }) => `${module} ${name}`))].sort()).toEqual([...new Set(rules)].sort());
  });

  it('a class that is no module’s belongs to the look, and every class of the look is used', () => {
    const words = new Set(SCREENS.flatMap((file) => wordsOf(source(file))));
    const also = MODULES.flatMap((file) => rulesOf(file)).flatMap(({ selector }) => globalsIn(selector));
    expect([...words, ...also].filter((word) => !LOOK.has(word))).toEqual([]);
    const all = SCREENS.map(source).join('\n');
    expect([...LOOK].filter((name) => !new RegExp(`["'\`} ]${name}["'\`$ ]`).test(all))).toEqual([]);
  });

  it('only the look is global', () => {
    expect(GLOBAL.filter((file) => !file.startsWith('app/_look/'))).toEqual(['app/globals.css']);
  });

  it('sizes, lines and spaces are tokens; a hairline is one pixel, and paper has its own margins', () => {
    const literal = SHEETS.flatMap((file) => rulesOf(file).map((rule) => ({ ...rule, file })))
      .filter(({ selector }) => !isPaper(selector))
      .flatMap(({ file, body }) => body.split(';').map((one) => ({ file, one: one.trim() })))
      .filter(({ one }) => /^(font|font-size|line-height|gap|row-gap|column-gap|margin[a-z-]*|padding[a-z-]*):/.test(one))
      .filter(({ one }) => /(?<![\w.-])(?!1px)\d*\.?\d*[1-9]\d*(?:px|pt|em|rem|ch|mm)/.test(one.replace(/var\([^)]*\)/g, '')));
    expect(literal.map(({ file, one }) => `${file}: ${one}`)).toEqual([]);
  });

  it('every token that is used is given, and every one given is used', () => {
    const all = SHEETS.map(source).join('\n');
    const given = new Set([...all.matchAll(/(?<![\w(-])(--[a-z0-9-]+):/g)].map(([, name = '']) => name));
    const used = new Set([...all.matchAll(/var\((--[a-z0-9-]+)/g)].map(([, name = '']) => name));
    const shipped = /^--(more-)?(sans|serif)-shipped$/;
    expect([...used].filter((name) => !given.has(name) && !shipped.test(name))).toEqual([]);
    expect([...given].filter((name) => !used.has(name))).toEqual([]);
  });

  it('browser tests find things by what a person finds, by a data attribute, or by a class of the look', () => {
    const found = filesIn('tests/e2e', /\.ts$/).flatMap((file) =>
      [...source(file).matchAll(/locator\((['"`])(.*?)\1/g)].flatMap(([, , selector = '']) =>
        classesIn(selector.replace(/\[[^\]]*\]/g, '')),
      ),
    );
    expect(found.filter((name) => !LOOK.has(name) && !name.startsWith('recharts-'))).toEqual([]);
  });
});
