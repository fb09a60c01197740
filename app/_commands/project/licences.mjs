import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { namesGiven } from '../no-arguments.mjs';
import { ROOT } from '../start/prepare.mjs';

/** Where the list is kept; a test compares it with the lock file. */
const LICENCES = path.join(ROOT, 'app/_commands/project/licences.txt');

/**
 * The licence of every package that the lock file names, a line each: licence, name, version, and whether it is only for building.
 *
 * Read from the lock file, which the registry's own metadata went into. A package that says nothing is listed as `not said`.
 */
export function licenceList(lock) {
  const lines = Object.entries(lock.packages)
    .filter(([place]) => place.includes('node_modules/'))
    .map(([place, one]) => {
      const name = place.slice(place.lastIndexOf('node_modules/') + 'node_modules/'.length);
      return `${one.license ?? 'not said'}\t${name}\t${one.version}${one.dev ? '\tbuilding and tests only' : ''}`;
    });
  return `${[...new Set(lines)].sort().join('\n')}\n`;
}

/** Writes the list: `npm run licences`. */
function write() {
  fs.writeFileSync(LICENCES, licenceList(JSON.parse(fs.readFileSync(path.join(ROOT, 'package-lock.json'), 'utf8'))));
  console.log(`Written to ${path.relative(ROOT, LICENCES)}.`);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  namesGiven('npm run licences\n  Writes the list of every package and its licence.');
  write();
}
