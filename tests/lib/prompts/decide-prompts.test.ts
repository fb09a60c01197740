import { describe, expect, it } from 'vitest';
import { limitInWords } from '@/lib/limits/limit-in-words';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import {
  inputsOf,
  type MergedPrompt,
  mergeByCause,
  openPrompts,
  type PromptAnswer,
  putOff,
  RULES,
  raisePrompts,
} from '@/lib/prompts/decide-prompts';
import { type Prompt, URGENCY } from '@/lib/prompts/prompt';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { analysed, legOf, pieceOf } from './made-up-piece';

function prompt(rule: string, rest: Partial<Prompt> = {}): Prompt {
  return {
    rule,
    ruleVersion: 1,
    action: 'remeasure',
    due: null,
    title: rule,
    facts: [],
    missing: [],
    limits: [],
    cause: 'left leg: size',
    about: {},
    inputs: 'a',
    ...rest,
  };
}

const answer = (of: MergedPrompt, how: PromptAnswer['answer'], until: string | null = null): PromptAnswer => ({
  cause: of.cause,
  inputs: inputsOf(of),
  answer: how,
  until,
});
const [both] = mergeByCause([prompt('growth'), prompt('weight')]) as [MergedPrompt];

describe('prompts', () => {
  it('of one cause are one, the most urgent in front, the rest behind it', () => {
    const merged = mergeByCause([prompt('tightness', { action: 'refit' }), prompt('growth'), prompt('visit', { cause: 'visit' })]);
    expect(merged.map((one) => [one.rule, one.also.map((behind) => behind.rule)])).toEqual([
      ['tightness', ['growth']],
      ['visit', []],
    ]);
  });

  it('that were begun stay open and are marked; done they rest, put off they are named with their day', () => {
    expect(openPrompts([both], [answer(both, 'begun')], '2026-11-25').map(({ begun }) => begun?.answer)).toEqual(['begun']);
    expect(openPrompts([both], [answer(both, 'begun'), answer(both, 'act')], '2026-11-25')).toEqual([]);
    const later = [answer(both, 'not-now', '2026-12-01')];
    expect(putOff([both], openPrompts([both], later, '2026-11-25'), later)).toEqual([{ prompt: both, until: '2026-12-01' }]);
    expect(putOff([both], openPrompts([both], later, '2026-12-01'), later)).toEqual([]);
  });

  it('come in order of urgency, then of the day they are due', () => {
    const visits = [visitOf('2026-01-05', [legOf()], { weight: '70 kg' }), visitOf('2026-01-07', [legOf(1.07)], { weight: '75 kg' })];
    const record = recordOf(visits, { pieces: [pieceOf('2026-01-05', { firstWorn: calendarDay('2026-01-06'), firstFit: null })] });
    const raised = raisePrompts(analysed(record, '2026-09-01'));
    expect(raised.map((one) => one.rule)).toContain('sudden-weight-gain');
    const urgencies = raised.map((one) => URGENCY[one.action]);
    expect(urgencies).toEqual([...urgencies].sort((one, other) => one - other));
    expect(raised[0]?.action).toBe('refer');
    for (const one of raised) expect(one.title.startsWith('Consider') || one.action === 'refer').toBe(true);
    for (const one of raised)
      for (const name of one.limits) expect(limitInWords(name, DEFAULT_POLICY)).toMatch(/(Published|Common practice|Clinic default): \S/);
  });

  it('come from rules with ids of their own', () => {
    expect(new Set(RULES.map((rule) => rule.id)).size).toBe(RULES.length);
  });
});

describe('an answered prompt', () => {
  it('is hidden while its inputs stay, whether acted on or declined', () => {
    expect(openPrompts([both], [], '2026-06-01')).toEqual([both]);
    expect(openPrompts([both], [answer(both, 'act')], '2026-06-01')).toEqual([]);
    // An order that was sent is followed by its pieces, and then no rule asks; asked again it was cancelled, or was another's.
    const ordered = { ...both, action: 'order' as const, also: [] };
    expect(openPrompts([ordered], [answer(ordered, 'act')], '2026-06-01')).toHaveLength(1);
    expect(openPrompts([ordered], [answer(ordered, 'not-for-this-patient')], '2026-06-01')).toEqual([]);
    expect(openPrompts([both], [answer(both, 'not-for-this-patient')], '2036-06-01')).toEqual([]);
  });

  it('returns with new inputs, a new rule version or another part, and not for a part that fell away', () => {
    const declined = [answer(both, 'not-for-this-patient')];
    const merged = (...prompts: Prompt[]) => mergeByCause(prompts);
    expect(openPrompts(merged(prompt('growth', { inputs: 'b' }), prompt('weight')), declined, '2026-06-01')).toHaveLength(1);
    expect(openPrompts(merged(prompt('growth', { ruleVersion: 2 }), prompt('weight')), declined, '2026-06-01')).toHaveLength(1);
    expect(openPrompts(merged(prompt('growth'), prompt('weight'), prompt('tightness')), declined, '2026-06-01')).toHaveLength(1);
    expect(openPrompts(merged(prompt('weight')), declined, '2026-06-01')).toEqual([]);
    expect(openPrompts(merged(prompt('weight', { cause: 'right leg: size' })), declined, '2026-06-01')).toHaveLength(1);
  });

  it('of “not now” rests until its day and is open on it; without a day it does not rest', () => {
    const later = [answer(both, 'not-now', '2026-07-01')];
    expect(openPrompts([both], later, '2026-06-30')).toEqual([]);
    expect(openPrompts([both], later, '2026-07-01')).toHaveLength(1);
    expect(openPrompts([both], [answer(both, 'not-now')], '2026-06-01')).toHaveLength(1);
  });

  it('is judged by its last answer', () => {
    expect(openPrompts([both], [answer(both, 'act'), answer(both, 'not-now', '2026-05-01')], '2026-06-01')).toHaveLength(1);
    expect(openPrompts([both], [answer(both, 'not-now', '2026-05-01'), answer(both, 'act')], '2026-06-01')).toEqual([]);
  });

  it('is not mistaken for another whose inputs only begin alike', () => {
    const [one] = mergeByCause([prompt('growth', { inputs: 'a1' })]) as [MergedPrompt];
    const [other] = mergeByCause([prompt('growth', { inputs: 'a' })]) as [MergedPrompt];
    expect(openPrompts([other], [answer(one, 'act')], '2026-06-01')).toHaveLength(1);
  });
});
