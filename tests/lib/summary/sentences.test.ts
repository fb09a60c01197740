import { describe, expect, it } from 'vitest';
import { demoClinic } from '@/app/_commands/demonstration/demo-clinic';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import { raisePrompts } from '@/lib/prompts/decide-prompts';
import { reasonsInWords } from '@/lib/prompts/reasons-in-words';
import { trendSentence } from '@/lib/summary/trend-sentence';
import { verdictSentence } from '@/lib/summary/verdict-sentence';
import { calendarDay } from '@/lib/units/calendar-day';
import { demoRecord } from '@/tests/demo-record';

/** Every sentence that the engine says of the demonstration clinic. */
function everySentence(): string[] {
  const today = calendarDay('2026-11-25');
  return demoClinic(today).patients.flatMap((patient) => {
    const analysis = analysePatient(demoRecord(patient), DEFAULT_POLICY, today);
    const judged = analysis.limbs.flatMap((limb) =>
      limb.visits.flatMap(({ sinceLast, sinceBaseline }) =>
        [sinceLast, sinceBaseline].flatMap((one) => (one && !isNoAnswer(one) ? [one] : [])),
      ),
    );
    return [
      ...judged.flatMap((one) => [verdictSentence(one, analysis.record), ...reasonsInWords(one)]),
      ...analysis.limbs.map((limb) => trendSentence(limb.trend)),
      ...raisePrompts(analysis).flatMap((prompt) => [prompt.title, ...prompt.facts, ...prompt.missing]),
    ];
  });
}

describe('sentences of the engine over the demonstration clinic', () => {
  const sentences = everySentence();

  it('leak no missing figure and no bare placeholder', () => {
    expect(sentences.length).toBeGreaterThan(200);
    for (const sentence of sentences) expect(sentence).not.toMatch(/NaN|Infinity|undefined|null|\[object|\$\{/);
  });

  it('end as sentences do, start with a capitalized or a figure, and never hold two spaces or a hyphen for a minus', () => {
    for (const sentence of sentences) {
      expect(sentence).toMatch(/[.?!]$/);
      expect(sentence).toMatch(/^[\p{Lu}\d]/u);
      expect(sentence).not.toMatch(/ {2}|(^|[\s(])-\d/);
    }
  });

  it('make no diagnosis and lay no blame', () => {
    for (const sentence of sentences) expect(sentence).not.toMatch(/diagnos|lymphoedema likely|thrombosis|DVT|fail|non-compliant|wrong/i);
  });
});
