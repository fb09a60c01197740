import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { CAUTION_CARDS } from '@/lib/cautions/caution-cards';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf } from '../made-up-ladder';

/** Question and boxes of each card as they were asked under its version: who answered was asked just these words. */
const ASKED: Readonly<Record<string, string>> = {
  'active-cancer 1': '6986415f9fbc',
  'airway-and-feeding 1': '0ab276d12ea1',
  'arterial-supply 1': '02fb91f7f493',
  'blisters 1': 'eab821789711',
  'blood-supply-left 1': '9038dfa30722',
  'blood-supply-right 1': '8765ce41ea14',
  'broken-skin 2': '5f28bbd903a5',
  'can-take-off 2': '51406a6df981',
  'chest-and-spine 1': '5c66bfce1e4f',
  'device-line-opening 1': '5afdfcba2f8d',
  'dialysis-access 1': '9cd323c48642',
  'escalate-now 2': 'a74f17b54d79',
  'first-night 1': 'db178ae9246c',
  'folded-garment 1': '07637b84ca4b',
  'garment-elsewhere 1': 'b76208a31a55',
  'graft-near-skin 2': '7e1c53174426',
  'growth-watch 2': '737c0f7a11ee',
  'heart-failure 2': 'ac75ef0a4ef9',
  'heat 1': '741b2a423c89',
  'hot-red-skin 2': '91993fe5809e',
  'infant-word 1': 'e71b47e26122',
  'loss-of-feeling 2': '99de84f1625f',
  'material-allergy 2': '7f7137916a26',
  'mouth-and-bite 1': 'f0d32f9caa49',
  'new-medicine 1': '1b250a97fc9f',
  'new-operation 1': '1fb7dc0653ed',
  'new-swelling-left-arm 1': '2697eb432073',
  'new-swelling-left-leg 1': '063638e55b1c',
  'new-swelling-right-arm 1': '9a0dbd4ed9c7',
  'new-swelling-right-leg 1': '67224b3f0250',
  'numb-or-cold 1': '2a7fb915d335',
  'one-sided-swelling 1': '02fb91f7f493',
  'plan-recheck 1': '02fb91f7f493',
  'pregnancy 1': '74a05bb89f8d',
  'sudden-gain 2': '98241e5766d2',
  'unexplained-loss 1': '0193fef5e567',
};

describe('what a card asks', () => {
  it('has another version when its question or boxes are others; how `ifPresent` says the same asks nobody again', () => {
    const about = { record: recordOf([]), policy: DEFAULT_POLICY, today: calendarDay('2026-11-25') };
    const asked = CAUTION_CARDS.map(({ id, version, question, boxes }) => {
      const words = JSON.stringify([question(about), boxes?.(about) ?? []]);
      return [`${id} ${version}`, createHash('sha256').update(words).digest('hex').slice(0, 12)];
    });
    expect(Object.fromEntries(asked)).toEqual(ASKED);
  });
});
