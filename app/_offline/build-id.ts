import 'server-only';
import fs from 'node:fs';
import path from 'node:path';

let known: string | undefined;

/** Which build this server runs: what one build kept on a device another does not open. */
export function buildId(): string {
  known ??= read(path.join(process.cwd(), '.next/BUILD_ID'));
  return known;
}

function read(file: string): string {
  return fs.existsSync(file) ? fs.readFileSync(file, 'utf8').trim() : 'development';
}
