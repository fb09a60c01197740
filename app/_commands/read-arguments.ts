import { type ParseArgsConfig, parseArgs } from 'node:util';

/** Options of a command, as `node:util` knows them. */
type Options = NonNullable<ParseArgsConfig['options']>;

/** Codes a command ends with. */
export const EXIT = { done: 0, refused: 1, cellsNotRead: 2 } as const;

/**
 * What a command was given. `--help` prints how it is used and ends it with 0; an option it does not know, or more names than it takes, is
 * said on standard error with how it is used, and ends it with `wrong`.
 */
export function readArguments<T extends Options>(
  usage: string,
  options: T,
  { names = 0, wrong = EXIT.refused }: { readonly names?: number; readonly wrong?: number } = {},
) {
  const config = { allowPositionals: true, options: { ...options, help: { type: 'boolean', short: 'h', default: false } } } as const;
  const end = (message: string): never => {
    process.stderr.write(`${message}\n`);
    return process.exit(wrong);
  };
  const parsed = (() => {
    try {
      return parseArgs(config as unknown as { allowPositionals: true; options: T });
    } catch (error) {
      return end(`${(error as Error).message}\n${usage}`);
    }
  })();
  if ((parsed.values as { readonly help?: boolean }).help) {
    process.stdout.write(`${usage}\n`);
    return process.exit(EXIT.done);
  }
  if (parsed.positionals.length > names) return end(`Too many names: ${parsed.positionals.slice(names).join(' ')}\n${usage}`);
  return parsed;
}
