import { describe, expect, it } from 'vitest';
import { csvRows } from '@/lib/exchange/csv-table';
import { textTable } from '@/lib/exchange/spreadsheet/text-table';
import { readReduction } from '@/lib/forms/read-cut';
import { readDay } from '@/lib/units/calendar-day';
import { readMass } from '@/lib/units/mass';
import { readLength } from '@/lib/units/read-length';
import { readNumber } from '@/lib/units/read-number';
import { cutPasted } from '@/lib/visit-form/pasted-columns';

const LENGTHS = [3000, 30_000, 300_000] as const;

/** Texts that make a pattern try again from every place; found by reading the patterns. */
const HOSTILE: Readonly<Record<string, (length: number) => string>> = {
  blanks: (length) => `1${' '.repeat(length)}x`,
  'blanks behind': (length) => `12${' '.repeat(length)}`,
  figures: (length) => '1'.repeat(length),
  'figures and a stroke': (length) => `${'1'.repeat(length)}/4`,
  'plus signs': (length) => '1+'.repeat(length / 2),
  commas: (length) => ','.repeat(length),
  quotes: (length) => `"${'""'.repeat(length / 2)}`,
  'lines of commas': (length) => ',,,,,,,,,\n'.repeat(length / 10),
  pounds: (length) => 'lb '.repeat(length / 3),
  'blanks and ounces': (length) => `1 lb${' '.repeat(length)}oz oz`,
  signs: (length) => '🧵'.repeat(length / 2),
};

const READERS: Readonly<Record<string, (text: string) => unknown>> = {
  readNumber,
  readLength: (text) => readLength(text, 'in'),
  'readLength on a ladder': (text) => readLength(text, 'cm', true),
  readMass: (text) => readMass(text, 'lb'),
  readReduction,
  readDay,
  textTable,
  csvRows: (text) => quietly(() => csvRows(text, ['a'])),
  cutPasted: (text) => cutPasted(text),
};

function quietly(read: () => unknown): unknown {
  try {
    return read();
  } catch (error) {
    return error;
  }
}

/** The shortest of three times, ms; what the machine does besides only makes a time longer. */
function timeOf(read: (text: string) => unknown, text: string): number {
  return Math.min(
    ...[1, 2].map(() => {
      const started = performance.now();
      read(text);
      return performance.now() - started;
    }),
  );
}

describe('a reader given a hostile text', () => {
  it.each(Object.entries(READERS))('%s takes time that grows no faster than the text, 3,000 to 300,000 characters', (name, read) => {
    let worst = { ratio: 0, ms: 0, text: '' };
    for (const [text, make] of Object.entries(HOSTILE)) {
      const times = LENGTHS.map((length) => timeOf(read, make(length)));
      const [, before = 0, last = 0] = times;
      const ratio = last / Math.max(before, 2);
      if (ratio > worst.ratio) worst = { ratio, ms: last, text };
    }
    process.stdout.write(
      `${name}: ten times the text takes ${worst.ratio.toFixed(1)} times as long (${worst.text}, ${worst.ms.toFixed(1)} ms)\n`,
    );
    expect(worst.ratio).toBeLessThan(30);
  });
});
