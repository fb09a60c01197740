import { describe, expect, it } from 'vitest';
import { demoClinic } from '@/app/_commands/demonstration/demo-clinic';
import { analysePatient, type PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import { howSureInWords, smallestInWords, whenInWords } from '@/lib/prompts/change-in-words';
import { raisePrompts } from '@/lib/prompts/decide-prompts';
import { reasonsBesideVerdict, reasonsInWords } from '@/lib/prompts/reasons-in-words';
import { trendSentence } from '@/lib/summary/trend-sentence';
import { verdictSentence } from '@/lib/summary/verdict-sentence';
import type { JudgedChange } from '@/lib/trend/judged-change';
import { calendarDay } from '@/lib/units/calendar-day';
import { demoRecord } from '@/tests/demo-record';

const TODAY = calendarDay('2026-11-25');

/** Every change that the engine judges of a patient. */
function judgedOf({ limbs }: PatientAnalysis): JudgedChange[] {
  return limbs.flatMap((limb) =>
    limb.visits.flatMap(({ sinceLast, sinceBaseline }) =>
      [sinceLast, sinceBaseline].flatMap((one) => (one && !isNoAnswer(one) ? [one] : [])),
    ),
  );
}

/** Every sentence that the engine says of the demonstration clinic. */
function everySentence(): string[] {
  return demoClinic(TODAY).patients.flatMap((patient) => {
    const analysis = analysePatient(demoRecord(patient), DEFAULT_POLICY, TODAY);
    const judged = judgedOf(analysis);
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

  it('say on a result no figure of the verdict and its lines once more, and leave no reason out', () => {
    const judged = demoClinic(TODAY).patients.flatMap((patient) => judgedOf(analysePatient(demoRecord(patient), DEFAULT_POLICY, TODAY)));
    expect(judged.length).toBeGreaterThan(100);
    for (const one of judged) {
      const above = [howSureInWords(one), one.found && whenInWords(one.found), one.found ? undefined : smallestInWords(one)];
      const beside = reasonsBesideVerdict(one);
      expect(new Set(beside).size).toBe(beside.length);
      for (const words of above) if (words) expect(beside.join(' ').toLowerCase()).not.toContain(words.toLowerCase());
      const left = reasonsInWords(one).filter((reason) => !beside.includes(reason));
      // How sure, the smallest that would show and, where the tape alone decided, the volume stand above.
      expect(left.length).toBeLessThanOrEqual(3);
    }
  });

  it('make no diagnosis and lay no blame', () => {
    for (const sentence of sentences) expect(sentence).not.toMatch(/diagnos|lymphoedema likely|thrombosis|DVT|fail|non-compliant|wrong/i);
  });
});
