import { afterAll, describe, expect, it } from 'vitest';
import type { LengthUnit } from '@/lib/units/length';
import { readLength } from '@/lib/units/read-length';
import { type Random, seeded } from '@/tests/cohort/random';

/** Texts of each of the four kinds; the campaign asks for more. */
const TIMES = Number(process.env.READER_TEXTS ?? 100_000) / 4;

/** Nanometres in one inch and one centimetre, from the 1959 agreement and the SI, written out here on purpose. */
const NM: Readonly<Record<LengthUnit, bigint>> = { in: 25_400_000n, cm: 10_000_000n };

const tally: { texts: string; tried: number; read: number; asked: number; refused: number; crashed: number; misread: number }[] = [];

const whole = (random: Random, below: number) => Math.floor(random.uniform() * below);

/** A text made from known parts, and the exact length those parts mean, worked out here with whole numbers only. */
type Meant = { readonly text: string; readonly unit: LengthUnit; readonly numerator: bigint; readonly denominator: bigint };

const GLYPH: Readonly<Record<string, string>> = {
  '1/2': '½',
  '1/4': '¼',
  '3/4': '¾',
  '1/8': '⅛',
  '3/8': '⅜',
  '5/8': '⅝',
  '7/8': '⅞',
  '1/10': '⅒',
};
const SUFFIXES: Readonly<Record<LengthUnit, readonly string[]>> = {
  in: ['', ' in', 'in', '"', '″', ' inches', ' inch.'],
  cm: ['', ' cm', 'cm', ' CM', ' cm.'],
};

function mixed(random: Random, unit: LengthUnit): Meant {
  const denominator = random.pick([2, 4, 8, 16, 32, 64, 10]);
  const numerator = 1 + whole(random, denominator - 1);
  const base = 1 + whole(random, 120);
  const part = `${numerator}/${denominator}`;
  const glyph = GLYPH[part];
  const joined =
    random.pick([' ', '-', ' - ', '–', ' and ', ' + ', '\u00a0', '  ']) +
    random.pick([part, part.replace('/', '⁄'), part.replace('/', ' / ')]);
  const tail = glyph && random.uniform() < 0.3 ? random.pick(['', ' ']) + glyph : joined;
  return { text: base + tail, unit, numerator: BigInt(base * denominator + numerator), denominator: BigInt(denominator) };
}

function decimal(random: Random, unit: LengthUnit): Meant {
  const places = 1 + whole(random, 4);
  const digits = String(whole(random, 10 ** places)).padStart(places, '0');
  const base = 1 + whole(random, 200);
  const mark = places === 3 ? '.' : random.pick(['.', ',']);
  return { text: `${base}${mark}${digits}`, unit, numerator: BigInt(`${base}${digits}`), denominator: 10n ** BigInt(places) };
}

function plain(random: Random, unit: LengthUnit): Meant {
  const base = 1 + whole(random, 300);
  return { text: random.pick(['', ' ', '0', '00']) + base + random.pick(['', ' ']), unit, numerator: BigInt(base), denominator: 1n };
}

function wellFormed(random: Random): Meant {
  const unit = random.pick(['in', 'cm'] as const);
  const meant = random.pick([mixed, mixed, decimal, plain])(random, unit);
  return { ...meant, text: random.pick(['', ' ', '\t']) + meant.text.trimEnd() + random.pick(SUFFIXES[unit]) };
}

/** Exact nanometres of what was meant, or undefined when that is not a whole number of them. */
function exactNm({ unit, numerator, denominator }: Meant): bigint | undefined {
  const scaled = numerator * NM[unit];
  return scaled % denominator === 0n ? scaled / denominator : undefined;
}

const ALPHABET = [...'0123456789'.repeat(6), ...'  ..,,//--½¼⅛', ...'+&\'"″°%()eExXoOlImMcCnN٣３१\u200b\u202e\u0000\n\t😀−–⁄'];

function noise(random: Random): string {
  return Array.from({ length: 1 + whole(random, 9) }, () => random.pick(ALPHABET)).join('');
}

/** A well-formed text with one character dropped, doubled, changed or put in. */
function mutated(random: Random): string {
  const { text } = wellFormed(random);
  const at = whole(random, text.length + 1);
  const sign = random.pick(ALPHABET);
  return random.pick([
    text.slice(0, at) + text.slice(at + 1),
    text.slice(0, at) + sign + text.slice(at),
    text.slice(0, at) + sign + text.slice(at + 1),
    text + text.slice(at),
  ]);
}

/**
 * Every exact value that a text may mean to a careful reader, as numerator/denominator in the unit: an independent, deliberately
 * simple grammar of whole numbers, decimals, fractions and mixed fractions, in regular expressions and whole-number arithmetic.
 */
function meanings(text: string, unit: LengthUnit): { numerator: bigint; denominator: bigint }[] {
  let bare = text.replace(/[⁄∕]/g, '/').replace(/[‐‑‒–—−]/g, '-');
  for (const [part, glyph] of Object.entries(GLYPH)) bare = bare.replaceAll(glyph, ` ${part}`);
  bare = bare.trim().replace(unit === 'in' ? /\s*(?:inches|inch|ins|in|"|″|”|'')\.?$/i : /\s*cms?\.?$/i, '');
  bare = bare
    .replace(/(\d)\s*(?:and|&|\+)\s*(\d)/gi, '$1 $2')
    .replace(/\s+/g, ' ')
    .trim();
  const fraction = /^(?:(\d+)(?: ?- ?| ))?(\d+) ?\/ ?(\d+)$/.exec(bare);
  if (fraction) {
    const [, base, upper = '0', lower = '0'] = fraction;
    if (BigInt(lower) === 0n || BigInt(upper) >= BigInt(lower)) return [];
    return [{ numerator: BigInt(base ?? '0') * BigInt(lower) + BigInt(upper), denominator: BigInt(lower) }];
  }
  const number = /^(\d+)(?:[.,](\d+))?$/.exec(bare);
  return number ? [{ numerator: BigInt(`${number[1]}${number[2] ?? ''}`), denominator: 10n ** BigInt(number[2]?.length ?? 0) }] : [];
}

function run(texts: string, next: (random: Random) => { text: string; unit: LengthUnit; nm?: bigint | undefined }, seed: number) {
  const random = seeded(seed);
  const row = { texts, tried: 0, read: 0, asked: 0, refused: 0, crashed: 0, misread: 0 };
  const wrong: string[] = [];
  for (let time = 0; time < TIMES; time++) {
    const { text, unit, nm } = next(random);
    row.tried += 1;
    try {
      const reading = readLength(text, unit, true);
      if (reading.kind === 'ask') row.asked += 1;
      if (reading.kind === 'refused') row.refused += 1;
      if (reading.kind !== 'read') {
        if (reading.reason.length < 8) wrong.push(`${text}: no reason`);
        continue;
      }
      row.read += 1;
      const got = BigInt(reading.value.nm);
      const right = nm === undefined ? meanings(text, unit).some((one) => one.numerator * NM[unit] === got * one.denominator) : got === nm;
      if (!right || reading.value.text !== text.trim()) {
        row.misread += 1;
        wrong.push(`${JSON.stringify(text)} ${unit} read as ${got}`);
      }
    } catch (error) {
      row.crashed += 1;
      wrong.push(`${JSON.stringify(text)} crashed: ${String(error)}`);
    }
  }
  tally.push(row);
  expect(wrong.slice(0, 10)).toEqual([]);
  return row;
}

describe('the reader of lengths, against whole-number arithmetic of its own', () => {
  it('reads every well-formed text as exactly what it was made from', () => {
    const row = run(
      'well formed',
      (random) => {
        const meant = wellFormed(random);
        return { text: meant.text, unit: meant.unit, nm: exactNm(meant) };
      },
      1,
    );
    expect(row.read).toBe(TIMES);
  });

  it('never silently misreads a text with one character wrong', () => {
    run('one character wrong', (random) => ({ text: mutated(random), unit: random.pick(['in', 'cm'] as const) }), 2);
  });

  it('never crashes on noise, and reads none of it as something else', () => {
    run('noise', (random) => ({ text: noise(random), unit: random.pick(['in', 'cm'] as const) }), 3);
  });

  it('never reads figures and marks in no order as something else', () => {
    const marks = [...'0123456789'.repeat(3), ...'  ..,,///--½⅛'];
    run(
      'figures and marks',
      (random) => ({
        text: Array.from({ length: 1 + whole(random, 8) }, () => random.pick(marks)).join(''),
        unit: random.pick(['in', 'cm'] as const),
      }),
      4,
    );
  });
});

afterAll(() => console.table(tally));
