import { namesGiven } from '../no-arguments.mjs';
import { build, install, runTypeScript } from './prepare.mjs';
import { choosePort, serve } from './serve.mjs';

/**
 * Serves a real clinic from DATABASE_URL, else DB_FILE, else data/clinic.db.
 *
 * Listens on this machine only unless HOST says otherwise; behind a proxy with https, APP_URL is the address people type.
 */
async function up() {
  if (!install()) return 1;
  const checked = runTypeScript('app/_commands/start/check-database.ts');
  if (checked === 3) {
    console.error('Nobody can sign in yet. Add the first therapist:');
    console.error('  npm run add-therapist -- --email you@clinic.example --name "Your Name" --clinic "Your clinic"');
    return 1;
  }
  if (checked !== 0) return checked;
  if (!build()) return 1;
  const host = process.env.HOST ?? '127.0.0.1';
  const port = await choosePort(host);
  await serve({
    host,
    port,
    log: true,
    env: {},
    whenReady: () => console.log(`The clinic is open at ${process.env.APP_URL ?? `http://${host}:${port}`}`),
  });
  return process.exitCode ?? 0;
}

namesGiven('npm run up\n  Serves the clinic of DATABASE_URL, else DB_FILE, else data/clinic.db. HOST, PORT and APP_URL say where.');
process.exitCode = await up();
