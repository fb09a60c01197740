import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = path.resolve(import.meta.dirname, '..');

/** Folders of lib from the ground up; each imports only from itself and those before it. */
const LIB_ORDER = [
  'outcome',
  'units',
  'statistics',
  'service',
  'ladder',
  'alignment',
  'volume',
  'parts',
  'limits',
  'study',
  'course-model',
  'observations',
  'garment-forms',
  'course',
  'diary',
  'record',
  'growth',
  'body-model',
  'doubts',
  'trend',
  'garments',
  'analysis',
  'cautions',
  'forms',
  'visit-form',
  'entry',
  'prompts',
  'exchange',
  'orders',
  'schedule',
  'summary',
];

/** Rooms and doors of db from the ground up; each imports only from itself and those before it. */
const DB_ORDER = [
  'sql',
  'schema',
  'audit',
  'open-postgres',
  'open-sqlite',
  'client',
  'therapist',
  'transaction',
  'patients',
  'clinic',
  'people',
  'documents',
  'service',
  'worklist',
  'erasure',
  'exchange',
  'upkeep',
];

/** Rooms of app that others build on, from the ground up; the folders of pages come after them all. */
const APP_ORDER = [
  '_look',
  '_auth',
  '_calendar',
  '_record',
  '_markup',
  '_form',
  '_shell',
  '_cautions',
  '_chart',
  '_exchange',
  '_coverage',
  '_course',
  '_work',
  '_diary',
  '_leaving',
  '_draft',
  '_picture',
  '_looked',
  '_family',
  '_letter',
  '_piece',
  '_order',
  '_sheet',
  '_offline',
  '_result',
  '_what-if',
  '_patient',
  '_report',
  '_service',
  '_today',
  '_server',
  '_commands',
];

/** `fhir` is types alone: the shapes of FHIR resources. */
const LIB_PACKAGES = ['date-fns', 'zod', 'csv-parse', 'simple-statistics', 'fhir', '@noble'];
const LONGEST_FILE = 260;
const MOST_FILES = 20;
/** A screen's parts are smaller than a function of db, and its styles stand beside it. */
const MOST_FILES_OF_APP = 26;
const LAYERS = ['lib', 'db', 'app'] as const;

/** Entries that answer without a person signed in, each for its own reason. */
const OPEN_ENTRIES = [
  'app/offline/page.tsx',
  'app/sign-in/page.tsx',
  'app/api/auth/[...all]/route.ts',
  'app/api/health/route.ts',
  'app/calendar/[token]/route.ts',
  'app/share/[token]/route.ts',
  'app/share/page.tsx',
  'app/join/[token]/page.tsx',
  'app/join/actions.ts',
];

/** What may be asked for before anybody is signed in, and changes something: signing in, using a one-time link, going on from its codes to sign in (nothing changes but a cookie of one's own), and a reply of a family. */
const ACT_BEFORE_SIGNING_IN = [
  'app/api/auth/[...all]/route.ts POST',
  'app/join/actions.ts joinAction',
  'app/join/actions.ts signInNextAction',
  'app/_family/reply-action.ts replyAction',
];

/** Functions of db for somebody who is not signed in but holds the token of a calendar address, a shared page or a one-time link. */
const FOR_TOKENS = ['calendarOfToken', 'openSharedPage', 'sharedPage', 'mayReply', 'repliesBy', 'sendReply', 'holderOf', 'takeLink'];

/** Functions of db for a session itself, before it is known to be somebody's. */
const FOR_SESSIONS = ['touchSession', 'endIdleSession'];

function filesUnder(folder: string): string[] {
  return fs
    .readdirSync(path.join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .map((name) => path.posix.join(folder, name.split(path.sep).join('/')))
    .filter((file) => /\.(ts|tsx|mjs)$/.test(file));
}

/** What a file imports, as paths from the root (`lib/units/length`) or names of packages (`next/link`). */
function importsOf(file: string): string[] {
  const found = source(file).matchAll(/^(?:import|export|\}) ?(?:[^'\n]*from )?'([^']+)';$|\bimport\('([^']+)'\)/gm);
  return [...found].map(([, fixed, lazy]) => {
    const name = fixed ?? lazy ?? '';
    if (name.startsWith('@/')) return name.slice(2);
    return name.startsWith('.') ? path.posix.join(path.posix.dirname(file), name) : name;
  });
}

function source(file: string): string {
  return fs.readFileSync(path.join(ROOT, file), 'utf8');
}

/** The code of a file without its comments. */
function code(file: string): string {
  return source(file)
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/^\s*\/\/.*$/gm, '');
}

const layerOf = (name: string) => LAYERS.findIndex((layer) => name === layer || name.startsWith(`${layer}/`));
const placeIn = (order: readonly string[]) => (name: string) => order.indexOf(name.split('/')[1]?.replace(/\.tsx?$/, '') ?? '');
const libFolderOf = placeIn(LIB_ORDER);
const dbRoomOf = placeIn(DB_ORDER);
const appRoomOf = placeIn(APP_ORDER);

describe('the house', () => {
  it.each(LAYERS)('%s imports only along the arrow app → db → lib', (layer) => {
    const wrong = filesUnder(layer).flatMap((file) =>
      importsOf(file)
        .filter((name) => layerOf(name) > layerOf(file) || name.startsWith('tests/'))
        .map((name) => `${file} imports ${name}`),
    );
    expect(wrong).toEqual([]);
  });

  it('lib is read from top to bottom: a folder imports only from folders before it', () => {
    const wrong = filesUnder('lib').flatMap((file) =>
      importsOf(file)
        .filter((name) => name.startsWith('lib/') && libFolderOf(name) > libFolderOf(file))
        .map((name) => `${file} imports ${name}`),
    );
    expect(wrong).toEqual([]);
  });

  it('every folder of lib has its place in that order', () => {
    expect(filesUnder('lib').filter((file) => libFolderOf(file) < 0)).toEqual([]);
  });

  it('db is read from top to bottom: a room imports only from rooms before it, and every file stands in one', () => {
    const files = filesUnder('db').filter((file) => !/^db\/(migrations\/|drizzle\.config)/.test(file));
    expect(files.filter((file) => dbRoomOf(file) < 0)).toEqual([]);
    const wrong = files.flatMap((file) =>
      importsOf(file)
        .filter((name) => name.startsWith('db/') && dbRoomOf(name) > dbRoomOf(file))
        .map((name) => `${file} imports ${name}`),
    );
    expect(wrong).toEqual([]);
  });

  it('app is read from top to bottom: a room imports only from rooms before it, and none imports from a page', () => {
    const rooms = filesUnder('app').filter((file) => file.startsWith('app/_'));
    expect(rooms.filter((file) => appRoomOf(file) < 0)).toEqual([]);
    const wrong = rooms.flatMap((file) =>
      importsOf(file)
        .filter((name) => name.startsWith('app/') && (appRoomOf(name) < 0 || appRoomOf(name) > appRoomOf(file)))
        .map((name) => `${file} imports ${name}`),
    );
    expect(wrong).toEqual([]);
  });

  it(`a room of db holds at most ${MOST_FILES} files`, () => {
    const full = DB_ORDER.filter((room) => filesUnder('db').filter((file) => file.startsWith(`db/${room}/`)).length > MOST_FILES);
    expect(full).toEqual([]);
  });

  it(`a folder of a room of app holds at most ${MOST_FILES_OF_APP} files`, () => {
    const folders = filesUnder('app').map((file) => path.posix.dirname(file));
    const full = [...new Set(folders)].filter(
      (folder) => folder.startsWith('app/_') && fs.readdirSync(path.join(ROOT, folder)).length > MOST_FILES_OF_APP,
    );
    expect(full).toEqual([]);
  });

  it('lib brings in only the small packages it may', () => {
    const wrong = filesUnder('lib').flatMap((file) =>
      importsOf(file)
        .filter((name) => layerOf(name) < 0 && !LIB_PACKAGES.includes(name.split('/')[0] ?? ''))
        .map((name) => `${file} imports ${name}`),
    );
    expect(wrong).toEqual([]);
  });

  it.each([
    ['the clock', /new Date\(\s*\)|\bDate\.now\b|\bDate\(\s*\)|performance\.now/],
    ['chance', /Math\.random|crypto\.|randomUUID/],
    ['the environment', /process\.|import\.meta|globalThis/],
  ])('lib does not ask %s', (_what, pattern) => {
    expect(filesUnder('lib').filter((file) => pattern.test(code(file)))).toEqual([]);
  });

  it('every page, action and route names the guard', () => {
    const entries = filesUnder('app').filter((file) => /\/(page\.tsx|actions\.ts|route\.ts)$/.test(`/${file}`));
    const unguarded = entries.filter((file) => !/await require(Therapist|Role|Acting)\(/.test(code(file)));
    expect(unguarded.sort()).toEqual([...OPEN_ENTRIES].sort());
  });

  it('everything that changes something calls the guard that also asks where the request comes from', () => {
    const wrong = filesUnder('app').flatMap((file) => {
      const isActions = /^\s*'use server'/m.test(code(file));
      const [, ...bodies] = code(file).split(/export async function /);
      return bodies
        .filter((body) => isActions || (file.endsWith('/route.ts') && /^(POST|PUT|PATCH|DELETE)\(/.test(body)))
        .filter((body) => !/await requireActing\(/.test(body))
        .map((body) => `${file} ${body.split('(')[0]}`);
    });
    expect(wrong.sort()).toEqual([...ACT_BEFORE_SIGNING_IN].sort());
  });

  it('what changes something before anybody is signed in asks first where the request comes from', () => {
    for (const entry of ACT_BEFORE_SIGNING_IN) expect(code(entry.split(' ')[0] ?? '')).toMatch(/isSameOrigin\(|await requireOwnPage\(/);
  });

  it('markup is handed over in one place, which escapes all of it', () => {
    const handing = filesUnder('app').filter((file) => /dangerouslySetInnerHTML|\.innerHTML|insertAdjacentHTML/.test(code(file)));
    expect(handing).toEqual(['app/_markup/static-markup.tsx']);
  });

  it('a function of db that reads or writes a clinic takes the person signed in first', () => {
    const outside = ['people.ts', 'client.ts', 'therapist.ts', 'transaction.ts', 'login-attempts.ts', 'signing-in.ts', 'history-state.ts'];
    const wrong = filesUnder('db')
      .filter((file) => !outside.includes(path.basename(file)) && /getDatabase\(\)|inTransaction\(/.test(code(file)))
      .flatMap((file) =>
        [...code(file).matchAll(/export async function (\w+)\(\s*(\w+)/g)]
          .filter(([, name, first]) => first !== 'therapist' && first !== 'lead' && ![...FOR_TOKENS, ...FOR_SESSIONS].includes(name ?? ''))
          .map(([, name]) => `${file} ${name}`),
      );
    expect(wrong).toEqual([]);
  });

  it(`no file is longer than ${LONGEST_FILE} lines`, () => {
    const long = LAYERS.flatMap(filesUnder).filter((file) => source(file).split('\n').length > LONGEST_FILE + 1);
    expect(long).toEqual([]);
  });

  it('the top level holds nothing but what is agreed', () => {
    const agreed = 'package.json package-lock.json tsconfig.json next.config.js app lib db tests public README.md DEVELOPERS.md'.split(' ');
    const made = ['node_modules', 'data', 'test-results', 'next-env.d.ts'];
    const found = fs.readdirSync(ROOT).filter((name) => !name.startsWith('.') && !agreed.includes(name) && !made.includes(name));
    expect(found).toEqual([]);
  });
});
