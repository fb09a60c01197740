import fs from 'node:fs';
import path from 'node:path';
import { namesGiven } from '../no-arguments.mjs';
import { build, install, ROOT, runTypeScript } from './prepare.mjs';
import { choosePort, serve } from './serve.mjs';

/** Sign-in of the made-up clinic. It guards nothing real, so it is the same everywhere and printed at each start. */
const EMAIL = 'demo@harbour-lane.example';
const PASSWORD = 'made-up people only';

const HOST = '127.0.0.1';
const FILE = path.join(ROOT, 'data/demo.db');
const DAY_FILE = path.join(ROOT, 'data/demo.day');

/**
 * Serves the made-up clinic from a file of its own, never the real one.
 *
 * Its visits are dated back from the day it was made, so each new day begins a new one; yesterday's is set aside once.
 */
async function demo() {
  if (!install() || !build()) return 1;
  const env = { DATABASE_URL: '', DB_FILE: FILE, DEMO_EMAIL: EMAIL, DEMO_PASSWORD: PASSWORD, DEMO_DAY: today(), APP_URL: '' };
  if (!madeToday()) {
    setAside();
    if (runTypeScript('app/_commands/start/seed-demo.ts', env) !== 0) return 1;
    fs.writeFileSync(DAY_FILE, today());
  }
  const checked = runTypeScript('app/_commands/start/check-database.ts', env);
  if (checked !== 0) return checked;
  const port = await choosePort(HOST);
  const lines = [`  Address   http://${HOST}:${port}`, `  E-mail    ${EMAIL}`, `  Password  ${PASSWORD}`];
  const whenReady = () =>
    console.log(`\nThe demonstration clinic is open. Everyone in it is made up.\n\n${lines.join('\n')}\n\nCtrl+C closes it.`);
  await serve({ host: HOST, port, env, whenReady });
  return process.exitCode ?? 0;
}

/** The made-up clinic counts its days in UTC. */
function today() {
  return new Date().toISOString().slice(0, 10);
}

function madeToday() {
  return fs.existsSync(FILE) && fs.existsSync(DAY_FILE) && fs.readFileSync(DAY_FILE, 'utf8') === today();
}

function setAside() {
  fs.mkdirSync(path.dirname(FILE), { recursive: true, mode: 0o700 });
  for (const end of ['', '-wal', '-shm', '.audit-head']) {
    fs.rmSync(`${FILE}.before${end}`, { force: true });
    if (fs.existsSync(FILE + end)) fs.renameSync(FILE + end, `${FILE}.before${end}`);
  }
}

namesGiven('npm run demo\n  Serves a made-up clinic from a file of its own. PORT chooses the port.');
process.exitCode = await demo();
