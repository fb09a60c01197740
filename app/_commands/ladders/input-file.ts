import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';

/** A file a command reads: where it lies, what it is called in a sentence, and how to let go of it. */
export type InputFile = { readonly path: string; readonly name: string; readonly let: () => void };

const CHUNK = 1 << 16;

/**
 * The file of an argument; `-` is standard input, which is written to a private file first, because it is read more than once.
 *
 * Undefined when it cannot be read.
 */
export function inputFile(given: string): InputFile | undefined {
  if (given === '-') return standardInput();
  try {
    fs.accessSync(given, fs.constants.R_OK);
    return { path: given, name: given, let: () => {} };
  } catch {
    return undefined;
  }
}

function standardInput(): InputFile {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-input-'));
  const file = path.join(folder, 'input');
  const remove = () => fs.rmSync(folder, { recursive: true, force: true });
  process.once('exit', remove);
  const handle = fs.openSync(file, 'wx', 0o600);
  const chunk = Buffer.alloc(CHUNK);
  for (let size = 1; size > 0; ) {
    size = readOrEnd(chunk);
    fs.writeSync(handle, chunk, 0, size);
  }
  fs.closeSync(handle);
  return { path: file, name: 'standard input', let: remove };
}

/** Bytes read of standard input; 0 at its end. A terminal or a pipe that has nothing yet is waited for. */
function readOrEnd(chunk: Buffer): number {
  for (;;) {
    try {
      return fs.readSync(0, chunk, 0, chunk.length, null);
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      if (code === 'EOF') return 0;
      if (code !== 'EAGAIN') throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 20);
    }
  }
}
