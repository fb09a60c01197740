import { parseArgs } from 'node:util';

/** Names given to a command without options of its own: `--help` prints how it is used, and what it does not know ends it with 1. */
export function namesGiven(usage, most = 0) {
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: { help: { type: 'boolean', short: 'h', default: false } },
    });
    if (values.help) {
      process.stdout.write(`${usage}\n`);
      process.exit(0);
    }
    if (positionals.length <= most) return positionals;
    throw new Error(`Too many names: ${positionals.slice(most).join(' ')}`);
  } catch (error) {
    process.stderr.write(`${error.message}\n${usage}\n`);
    return process.exit(1);
  }
}
