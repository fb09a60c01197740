import { afterAll, describe, expect, it } from 'vitest';
import { sheetDoubts } from '@/lib/doubts/sheet-doubts';
import type { Doubt } from '@/lib/ladder/doubt';
import { type Random, seeded } from '@/tests/cohort/random';
import {
  doubledRung,
  otherUnit,
  type Plant,
  skippedRung,
  swappedDigits,
  swappedNeighbours,
  timesTen,
  wholeInOtherUnit,
  wrongTens,
} from './plant-errors';
import { ansurLegs, questionsAbout, rowsOf, slackLimbs, yeadonLimbs } from './real-ladders';
import { askedWhileTyping, limbPair, type Pool, placesAsked, thinned, twoVisits } from './two-visits';

/** Ladders a class; the campaign `doubt-rates` asks for more. */
const LADDERS = Number(process.env.DOUBT_LADDERS ?? 60);

/** What was found, printed in one table at the end: the share of planted errors that raise a question where they are. */
const table: { class: string; limbs: string; 'with a last visit': string; 'first visit': string; 'swollen limb': string; asked: string }[] =
  [];
const clean: { ladders: string; questions: string; 'without any': string }[] = [];

const CLASSES: readonly { name: string; plant: Plant; least: number; orders: boolean }[] = [
  { name: '×10 or a tenth', plant: timesTen, least: 0.95, orders: false },
  { name: '×2.54, one figure', plant: otherUnit, least: 0.95, orders: false },
  { name: '×2.54, whole ladder', plant: wholeInOtherUnit, least: 0.95, orders: false },
  { name: 'wrong tens digit', plant: wrongTens, least: 0.95, orders: false },
  { name: 'swapped digits, over 1 cm', plant: swappedDigits, least: 0.9, orders: false },
  { name: 'rung left out, rest shifted', plant: skippedRung, least: 0.9, orders: true },
  { name: 'rung typed twice, rest shifted', plant: doubledRung, least: 0.9, orders: true },
  { name: 'neighbours exchanged, over 1 cm', plant: swappedNeighbours, least: 0.9, orders: true },
];

/** A question found the error: about a planted rung, the whole ladder, or the order of rungs (whose start is often unsure by a rung). */
const finds = (doubts: readonly Doubt[], at: readonly number[], orders: boolean) =>
  doubts.filter((doubt) => doubt.distanceMm === null || at.includes(doubt.distanceMm) || (orders && doubt.kind === 'shifted-rungs'));

/** The same error on a limb 15 % swollen at both visits, with a last visit; questions are milder there. */
function foundInSwollen(plant: Plant, random: Random, pool: Pool, orders: boolean): boolean {
  for (;;) {
    const visits = twoVisits(random, 'leg', pool, 'left', 0.15);
    const error = plant(visits.later, random);
    if (error) return finds(askedWhileTyping(error.ladder, visits.last, visits.today, true), error.at, orders).length > 0;
  }
}

const percent = (share: number) => `${(100 * share).toFixed(1)} %`;

describe.each<[Pool, string]>([
  ['synthetic', 'model bodies'],
  ['heldOut', 'real shapes (Slack, Yeadon)'],
])('planted errors on 24-rung legs: %s', (pool, words) => {
  it.each(CLASSES)('$name is asked about', ({ name, plant, least, orders }) => {
    const random = seeded(1107);
    const swollenRandom = seeded(1109);
    const kinds = new Map<string, number>();
    let [planted, withLast, first, swollen] = [0, 0, 0, 0];
    while (planted < LADDERS) {
      const visits = twoVisits(random, 'leg', pool);
      const error = plant(visits.later, random);
      if (!error) continue;
      planted += 1;
      const found = finds(askedWhileTyping(error.ladder, visits.last, visits.today), error.at, orders);
      if (found.length > 0) withLast += 1;
      for (const kind of new Set(found.map((doubt) => doubt.kind))) kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
      if (finds(askedWhileTyping(error.ladder, undefined, visits.today), error.at, orders).length > 0) first += 1;
      if (foundInSwollen(plant, swollenRandom, pool, orders)) swollen += 1;
    }
    const asked = [...kinds]
      .sort(([, one], [, other]) => other - one)
      .map(([kind, times]) => `${kind} ${times}`)
      .slice(0, 3)
      .join(', ');
    table.push({
      class: name,
      limbs: words,
      'with a last visit': percent(withLast / planted),
      'first visit': percent(first / planted),
      'swollen limb': percent(swollen / planted),
      asked,
    });
    expect(withLast / planted).toBeGreaterThanOrEqual(least);
  });
});

describe('clean ladders', () => {
  it.each<[Pool, 'leg' | 'arm', boolean, number]>([
    ['synthetic', 'leg', true, 0],
    ['heldOut', 'leg', true, 0],
    ['heldOut', 'leg', false, 0],
    ['heldOut', 'leg', true, 0.15],
    ['heldOut', 'leg', false, 0.15],
    ['heldOut', 'arm', true, 0],
    ['heldOut', 'arm', false, 0.1],
  ])('%s %s, last visit %s, swelling %s: at most one false question in five ladders', (pool, limb, hasLast, swelling) => {
    const random = seeded(2211);
    let [questions, quiet] = [0, 0];
    for (let person = 0; person < LADDERS; person++) {
      const visits = twoVisits(random, limb, pool, 'left', swelling);
      const asked = placesAsked(askedWhileTyping(visits.later, hasLast ? visits.last : undefined, visits.today, swelling > 0));
      questions += asked;
      if (asked === 0) quiet += 1;
    }
    const words = `${pool} ${limb}, ${hasLast ? 'with a last visit' : 'first visit'}${swelling ? ', swollen' : ''}`;
    clean.push({ ladders: words, questions: (questions / LADDERS).toFixed(3), 'without any': percent(quiet / LADDERS) });
    expect(questions / LADDERS).toBeLessThanOrEqual(0.2);
  });

  it('both limbs together raise at most one false question a ladder', () => {
    const random = seeded(31);
    let questions = 0;
    for (let person = 0; person < LADDERS; person++) {
      const pair = limbPair(random, 'heldOut', 0.15);
      questions += sheetDoubts(pair.limbs, pair.today).length / 2;
    }
    clean.push({ ladders: 'heldOut both legs, one swollen', questions: (questions / LADDERS).toFixed(3), 'without any': '' });
    expect(questions / LADDERS).toBeLessThanOrEqual(1);
  });
});

describe('few rungs at a first visit', () => {
  it.each([5, 6, 8, 12])('a wrong tens digit among %d rungs is asked about, a clean ladder hardly ever', (rungs) => {
    const random = seeded(71);
    let [planted, found, questions] = [0, 0, 0];
    for (const limb of ['leg', 'arm'] as const)
      for (let person = 0; person < LADDERS; person++) {
        const { later, today } = twoVisits(random, limb, 'heldOut');
        const ladder = thinned(later, rungs);
        questions += placesAsked(askedWhileTyping(ladder, undefined, today));
        const error = wrongTens(ladder, random);
        if (!error) continue;
        planted += 1;
        if (finds(askedWhileTyping(error.ladder, undefined, today), error.at, false).length > 0) found += 1;
      }
    const name = `${rungs} rungs, first visit; tens digit ${percent(found / planted)}`;
    clean.push({ ladders: name, questions: (questions / (2 * LADDERS)).toFixed(3), 'without any': '' });
    expect(found / planted).toBeGreaterThanOrEqual(0.93);
    expect(questions / (2 * LADDERS)).toBeLessThanOrEqual(0.1);
  });
});

describe('two limbs', () => {
  it('a swollen and a healthy leg typed in each other’s columns are asked about', () => {
    const random = seeded(47);
    let found = 0;
    for (let person = 0; person < LADDERS; person++) {
      const pair = limbPair(random, 'heldOut', 0.15);
      const [right, left] = pair.limbs;
      const crossed = [
        { ...right, ladder: { ...left.ladder, side: 'right' as const } },
        { ...left, ladder: { ...right.ladder, side: 'left' as const } },
      ];
      if (sheetDoubts(crossed, pair.today).some(({ doubt }) => doubt.kind === 'sides-swapped')) found += 1;
    }
    table.push({
      class: 'left and right changed round',
      limbs: 'real shapes, one leg 15 % swollen',
      'with a last visit': percent(found / LADDERS),
      'first visit': '–',
      'swollen limb': '–',
      asked: '',
    });
    expect(found / LADDERS).toBeGreaterThanOrEqual(0.95);
  });

  it('a ladder equal to the last one, or to the other limb, is asked about', () => {
    const random = seeded(53);
    let [last, other] = [0, 0];
    for (let person = 0; person < LADDERS; person++) {
      const pair = limbPair(random, 'heldOut', 0);
      const [right, left] = pair.limbs;
      const copied = { ...right, ladder: { ...right.ladder, rungs: pair.earlier.rungs } };
      if (sheetDoubts([copied], pair.today).some(({ doubt }) => doubt.kind === 'equals-last-visit')) last += 1;
      const twin = { ...left, ladder: { ...left.ladder, rungs: right.ladder.rungs } };
      if (sheetDoubts([right, twin], pair.today).some(({ doubt }) => doubt.kind === 'equals-other-limb')) other += 1;
    }
    table.push({
      class: 'equal to the last visit',
      limbs: 'real shapes',
      'with a last visit': percent(last / LADDERS),
      'first visit': '–',
      'swollen limb': '–',
      asked: '',
    });
    table.push({
      class: 'left equal to right',
      limbs: 'real shapes',
      'with a last visit': percent(other / LADDERS),
      'first visit': percent(other / LADDERS),
      'swollen limb': '–',
      asked: '',
    });
    expect(last).toBe(LADDERS);
    expect(other).toBe(LADDERS);
  });
});

describe('real people at a first visit', () => {
  const suspect = rowsOf('suspect_values.csv').filter((row) => row.dataset === 'slack1997_women_ladders.csv');
  const marked = suspect.filter((row) => /tens digit|swapped/.test(row.likely_slip_our_guess ?? ''));

  it('every marked tens-digit and swapped slip of Slack 1997 is asked about, at its figure', () => {
    const asked = slackLimbs().flatMap((limb) => questionsAbout(limb).map(({ column }) => `${limb.row} ${column}`));
    expect(marked).toHaveLength(4);
    for (const row of marked) expect(asked).toContain(`${row.row} ${row.column}`);
    clean.push({ ladders: 'Slack 1997, marked slips found', questions: `${marked.length} of ${marked.length}`, 'without any': '' });
  });

  it('at most 3 % of the other women of Slack 1997 are questioned', () => {
    const slips = new Set(marked.map((row) => row.row));
    const women = [...new Set(slackLimbs().map((limb) => limb.row))].filter((row) => !slips.has(row));
    const questioned = new Set(
      slackLimbs()
        .filter((limb) => !slips.has(limb.row) && questionsAbout(limb).length > 0)
        .map((limb) => limb.row),
    );
    clean.push({
      ladders: 'Slack 1997, other rows',
      questions: `${questioned.size} of ${women.length}`,
      'without any': percent(1 - questioned.size / women.length),
    });
    expect(questioned.size / women.length).toBeLessThanOrEqual(0.03);
  });

  it('few legs of ANSUR II and few limbs of the Yeadon sample are questioned; the rates are printed', () => {
    const ansur = ansurLegs().map((limb) => questionsAbout(limb).length);
    const yeadon = yeadonLimbs().map((limb) => questionsAbout(limb).length);
    const share = (counts: readonly number[]) => counts.filter((count) => count > 0).length / counts.length;
    clean.push({
      ladders: `ANSUR II 2012, ${ansur.length} legs`,
      questions: (sum(ansur) / ansur.length).toFixed(3),
      'without any': percent(1 - share(ansur)),
    });
    clean.push({
      ladders: `Yeadon sample, ${yeadon.length} limbs`,
      questions: (sum(yeadon) / yeadon.length).toFixed(3),
      'without any': percent(1 - share(yeadon)),
    });
    expect(share(ansur)).toBeLessThanOrEqual(0.03);
    expect(sum(yeadon) / yeadon.length).toBeLessThanOrEqual(1);
  });
});

const sum = (counts: readonly number[]) => counts.reduce((total, count) => total + count, 0);

afterAll(() => {
  console.table(table);
  console.table(clean);
});
