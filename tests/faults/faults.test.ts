import { describe, expect, it } from 'vitest';
import { seeded } from '@/tests/cohort/random';
import { type ClinicOn, clinicOn, ENGINES } from '@/tests/db/clinic-on';
import { alterEveryValue } from './altered-values';
import { cutLog } from './cut-log';
import { editTogether } from './editors';
import { failEachStep } from './failing-steps';
import { flipBits } from './flipped-bits';
import { killWriters } from './killed-writers';
import { sendAgain } from './repeated-submission';
import { tamper } from './tampering';

/** Sizes for every run; `npm run campaign` takes the long ones and prints the figures. */
async function on<T>(engine: (typeof ENGINES)[number], work: (at: ClinicOn) => Promise<T>): Promise<T> {
  const at = await clinicOn(engine);
  try {
    return await work(at);
  } finally {
    await at.close();
  }
}

describe('nothing acknowledged is lost, nothing is half written', () => {
  it('when a process that saves is killed, 40 times', async () => {
    const { kills, acknowledged, lost, half, problems } = await on('sqlite', (at) => killWriters(at, 40, seeded(7101)));
    expect({ kills, lost, half, problems }).toEqual({ kills: 40, lost: 0, half: 0, problems: [] });
    expect(acknowledged).toBeGreaterThanOrEqual(40);
  });

  it('when one of three processes on one server is killed, 6 times; the others go on', async () => {
    const { lost, half, problems } = await on('postgres', (at) => killWriters(at, 6, seeded(7102), 2));
    expect({ lost, half, problems }).toEqual({ lost: 0, half: 0, problems: [] });
  });

  it('when the log ends anywhere or in noise, 1,000 times', async () => {
    const { tried, corrupt, torn, lost, taken } = await on('sqlite', (at) => cutLog(at, 12, 1000, seeded(7103)));
    expect({ tried, corrupt, torn, lost }).toEqual({ tried: 1000, corrupt: 0, torn: 0, lost: 0 });
    expect(taken).toBeGreaterThan(1000); // the cuts did cut
  });

  it.each([
    ['sqlite', ['once', 'lasting']],
    ['postgres', ['once']],
  ] as const)('when the database fails at the k-th step of a save, for every k and every save, on %s', async (engine, kinds) => {
    const { paths, faults, half } = await on(engine, (at) => failEachStep(at, engine, kinds));
    expect(half).toEqual([]);
    expect(faults).toBeGreaterThan(paths * 5);
  });
});

describe.each(ENGINES)('on %s', (engine) => {
  it('every value of every table with content, altered by itself behind the program’s back, is seen', async () => {
    const { tables, tried, seen, missed } = await on(engine, (at) => alterEveryValue(at, engine, 1));
    expect(missed).toEqual([]);
    expect(seen).toBe(tried);
    expect(tables).toBeGreaterThan(25);
  });

  it('of many editors of the same visits none overwrites another, and each loser is shown both versions', async () => {
    const { saved, lost, leftInTheDark, gone } = await on(engine, (at) => editTogether(at, 10, 10, 3));
    expect({ saved, leftInTheDark, gone }).toEqual({ saved: 100, leftInTheDark: 0, gone: 0 });
    expect(lost).toBeGreaterThan(0);
  });

  it('one form sent 500 times makes one visit', async () => {
    const left = await on(engine, (at) => sendAgain(at, 500));
    expect(left).toEqual({ sent: 500, visits: 1, revisions: 1, ladders: 2, deeds: 1 });
  });
});

it('of 1,000 changes to the history behind the program’s back, all are seen', async () => {
  const { tried, seen, missed } = await on('sqlite', (at) => tamper(at, 60, 1000, seeded(7104)));
  expect(missed).toEqual([]);
  expect([tried, seen]).toEqual([1000, 1000]);
});

it('of single bits flipped in the file, every one that changes a sealed value is seen', async () => {
  const { changed, seen, missed } = await on('sqlite', (at) => flipBits(at, 250, seeded(7105)));
  expect(missed).toEqual([]);
  expect(seen).toBe(changed);
  expect(changed).toBeGreaterThan(10);
});
