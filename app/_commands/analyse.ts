import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { todayIn } from '@/app/_session/today';
import { recordErrorScale } from '@/lib/analysis/record-error-scale';
import type { ErrorScale } from '@/lib/course-model/error-scale';
import { analysisDocument } from '@/lib/exchange/analysis-document';
import type { CsvFault } from '@/lib/exchange/csv-table';
import { readLaddersCsv } from '@/lib/exchange/read-ladders-csv';
import { readPiecesCsv } from '@/lib/exchange/read-pieces-csv';
import { DEFAULT_POLICY, type Policy, policySchema, policyWith } from '@/lib/record/policy';
import { type CalendarDay, readDay } from '@/lib/units/calendar-day';

const USAGE =
  'Use: npm run -s analyse -- ladders.csv [--garments pieces.csv] [--today YYYY-MM-DD] [--policy policy.json] [--scale learn|NUMBER]';

/** Prints one JSON document for a ladders file; a fault goes to standard error with exit code 2, and nothing else is printed. */
function main(): void {
  const { ladders, garments, today, policy, scale } = readArguments();
  const read = readLaddersCsv(textOf(ladders), today);
  if (read.kind === 'fault') stop(faultLine(ladders, read.fault));
  let { records } = read;
  if (garments) {
    const withPieces = readPiecesCsv(textOf(garments), records);
    if (withPieces.kind === 'fault') stop(faultLine(garments, withPieces.fault));
    records = withPieces.records;
  }
  process.stdout.write(
    `${JSON.stringify(analysisDocument(records, policy, today, scale ?? recordErrorScale(records, policy)), null, 2)}\n`,
  );
}

type Arguments = {
  ladders: string;
  garments: string | undefined;
  today: CalendarDay;
  policy: Policy;
  /** Undefined where it is to be learnt. */
  scale: ErrorScale | undefined;
};

function readArguments(): Arguments {
  let parsed: ReturnType<typeof parse>;
  try {
    parsed = parse();
  } catch (error) {
    return stop(`${(error as Error).message}\n${USAGE}`);
  }
  const { values, positionals } = parsed;
  const [ladders] = positionals;
  if (!ladders || positionals.length > 1) return stop(USAGE);
  const today = values.today === undefined ? todayIn(Intl.DateTimeFormat().resolvedOptions().timeZone) : dayFrom(values.today);
  const policy = values.policy === undefined ? DEFAULT_POLICY : policyFrom(values.policy);
  return { ladders, garments: values.garments, today, policy, scale: scaleFrom(values.scale ?? 'learn') };
}

function parse() {
  return parseArgs({
    allowPositionals: true,
    options: { garments: { type: 'string' }, today: { type: 'string' }, policy: { type: 'string' }, scale: { type: 'string' } },
  });
}

function dayFrom(text: string): CalendarDay {
  const reading = readDay(text);
  return reading.kind === 'read' ? reading.value : stop(`--today: ${reading.reason}`);
}

/** `learn`, or a positive number by which every variance of error is multiplied. */
function scaleFrom(text: string): ErrorScale | undefined {
  if (text === 'learn') return undefined;
  const variance = /^\d{1,3}(\.\d{1,6})?$/.test(text) ? Number(text) : 0;
  return variance > 0 ? { variance, n: 0 } : stop(`--scale: write learn, or a number above 0 such as 1 or 1.6, not ${text}.`);
}

function policyFrom(file: string): Policy {
  let json: unknown;
  try {
    json = JSON.parse(textOf(file));
  } catch {
    return stop(`${file}: this is not JSON.`);
  }
  const checked = policySchema.safeParse(json);
  if (!checked.success) {
    const first = checked.error.issues[0];
    return stop(`${file}: ${first?.path.join('.') || 'policy'}: ${first?.message ?? 'cannot be read'}`);
  }
  return policyWith(checked.data);
}

function textOf(file: string): string {
  let bytes: Buffer;
  try {
    bytes = readFileSync(file);
  } catch {
    return stop(`${file}: cannot be read.`);
  }
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return stop(`${file}: this is not UTF-8 text. Save it as CSV UTF-8.`);
  }
}

function faultLine(file: string, fault: CsvFault): string {
  return `${file}: line ${fault.line}, column ${fault.column}: ${fault.reason}`;
}

function stop(message: string): never {
  process.stderr.write(`${message}\n`);
  process.exit(2);
}

main();
