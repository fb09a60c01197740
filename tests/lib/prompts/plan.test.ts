import { describe, expect, it } from 'vitest';
import { mergeByCause, openPrompts, raisePrompts } from '@/lib/prompts/decide-prompts';
import { plansOf } from '@/lib/prompts/plan';
import type { Prompt, PromptAction } from '@/lib/prompts/prompt';
import type { LimbSide } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { analysed, legOf, pieceOf } from './made-up-piece';

const D = calendarDay;
const ARM: LimbSide = { limb: 'arm', side: 'left' };

function made(action: PromptAction, cause: string, more: Partial<Prompt> = {}): Prompt {
  const about = { limb: ARM };
  return {
    rule: action,
    ruleVersion: 1,
    action,
    due: null,
    title: action,
    facts: [],
    missing: [],
    limits: [],
    cause,
    about,
    inputs: '',
    ...more,
  };
}

describe('a plan', () => {
  it('puts the prompts of a limb in the order in which things are done, and each keeps its own cause', () => {
    // As they come: most urgent first. By hand: measure again, then refit, then order.
    const open = mergeByCause([
      made('repeat-reading', 'left arm: doubt'),
      made('refit', 'left arm: size'),
      made('order', 'left arm: replacement'),
      made('remeasure', 'left arm: growth'),
    ]);
    const [plan] = plansOf(open);
    expect(plan?.steps.map(({ number, prompt }) => [number, prompt.action])).toEqual([
      [1, 'repeat-reading'],
      [2, 'remeasure'],
      [3, 'refit'],
      [4, 'order'],
    ]);
    expect(plan?.steps.map(({ prompt }) => prompt.cause).sort()).toEqual(open.map(({ cause }) => cause).sort());
    expect(plan?.steps.filter(({ shown }) => !shown).map(({ prompt }) => prompt.action)).toEqual(['remeasure']);
  });

  it('keeps limbs and what is of the patient apart, the most urgent plan first, and loses nothing', () => {
    const leg: LimbSide = { limb: 'leg', side: 'right' };
    const open = mergeByCause([
      made('refer', 'leg', { about: { limb: leg } }),
      made('order', 'arm'),
      made('visit', 'visit', { about: {} }),
      made('refit', 'leg size', { about: { limb: leg } }),
    ]);
    const plans = plansOf(open);
    expect(plans.map(({ limb, steps }) => [limb?.limb ?? null, steps.map(({ prompt }) => prompt.action)])).toEqual([
      ['leg', ['refer', 'refit']],
      ['arm', ['order']],
      [null, ['visit']],
    ]);
    expect(plans.flatMap(({ steps }) => steps)).toHaveLength(open.length);
    expect(plansOf([])).toEqual([]);
  });

  it('says both pieces in one title and shows each reason that is merged', () => {
    const visits = [visitOf('2026-01-05', [legOf()]), visitOf('2026-03-05', [legOf(1.06)])];
    const pieces = [pieceOf('2026-01-05', { piece: '3' }), pieceOf('2026-01-05', { piece: '4' })];
    const analysis = analysed(recordOf(visits, { pieces }), '2026-03-10');
    const open = openPrompts(mergeByCause(raisePrompts(analysis)), [], '2026-03-10');
    const refit = plansOf(open)
      .flatMap(({ steps }) => steps)
      .find(({ prompt }) => prompt.action === 'refit');
    expect(refit?.title).toBe(
      'Consider a remeasure and refit of the left-leg pieces 3 and 4: they are not worn yet and would sit tighter than the working band.',
    );
    expect(refit?.reasons.map(({ about }) => about.piece)).toEqual(['3', '4']);
    const alone = analysed(recordOf(visits, { pieces: pieces.slice(0, 1) }), '2026-03-10');
    const [one] = mergeByCause(raisePrompts(alone)).filter(({ action }) => action === 'refit');
    expect(plansOf(one ? [one] : [])[0]?.steps[0]?.title).toBe(one?.title);
    expect(one?.due).toBe(D('2026-03-05'));
  });
});
