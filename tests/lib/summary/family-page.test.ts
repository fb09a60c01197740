import { describe, expect, it } from 'vitest';
import { demoClinic } from '@/app/_demo/demo-clinic';
import { demoRecord } from '@/app/_demo/demo-patient';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import { isNoAnswer } from '@/lib/outcome';
import { raisePrompts } from '@/lib/prompts/decide-prompts';
import { DEFAULT_POLICY } from '@/lib/record/policy';
import { familyFacts } from '@/lib/summary/family/family-facts';
import { type FamilyPage, familyPage, sentencesOf } from '@/lib/summary/family/family-page';
import { CHANGES } from '@/lib/summary/family/family-words';
import { readFamilyForm } from '@/lib/summary/family/read-family-form';
import { verdictSentence } from '@/lib/summary/verdict-sentence';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { legOf } from '../prompts/made-up-piece';

const TODAY = calendarDay('2026-11-25');
const CHECKED = { by: 'R. Adeyemi', day: TODAY };
const LEFT = { limb: 'leg' as const, side: 'left' as const };
const FORM = { limb: 'left leg', language: 'en', reader: 'family', name: 'Mira', change: 'same', right: 'yes' };

describe('the family page', () => {
  it('carries nothing of any verdict or prompt: every story of the demonstration, every visit, both languages', () => {
    let walked = 0;
    for (const patient of demoClinic(TODAY).patients) {
      const record = demoRecord(patient);
      const analysis = analysePatient(record, DEFAULT_POLICY, TODAY);
      const prompts = raisePrompts(analysis).flatMap((prompt) => [prompt.title, ...prompt.facts]);
      for (const limb of analysis.limbs)
        for (const visit of limb.visits) {
          const { limb: kind, side } = limb.series;
          const facts = familyFacts(analysis, visit.at.visit.day, { limb: kind, side });
          if (!facts) throw new Error('a taped limb has facts');
          const judged = visit.sinceBaseline;
          const verdict = judged && !isNoAnswer(judged) ? [verdictSentence(judged, record), judged.verdict] : [];
          const pages = ['en', 'es'].map((language): FamilyPage => {
            const person = { reader: 'family' as const, name: 'Mira', limb: kind, side };
            const choice = {
              language,
              person,
              change: 'not-sure',
              right: 'not-sure',
              why: null,
              hours: null,
              steps: [],
              note: '',
            } as const;
            return familyPage(choice, facts, undefined, 'Harbour Lane', CHECKED);
          });
          for (const page of pages) {
            const text = sentencesOf(page).join(' ');
            for (const said of [...prompts, ...verdict]) expect(text).not.toContain(said);
            // Whatever the engine found, the sentences on the limb and the garment are those that were chosen.
            walked++;
          }
          const taller = facts.taller && facts.taller.byMm >= 5 ? 1 : 0;
          expect(pages[0]?.sections[0]?.sentences).toHaveLength(2 + taller);
          expect(pages[0]?.sections[0]?.sentences.at(-1)).toBe('The tape did not give a clear answer this time.');
        }
    }
    expect(walked).toBeGreaterThan(100);
  });

  it('says what was chosen, and only that, for each thing that can be said of the limb', () => {
    const facts = { day: TODAY, unit: 'in' as const, places: 16, taller: null, outlines: null };
    const pages = CHANGES.map((change) => {
      const choice = {
        language: 'en',
        person: { reader: 'family', name: 'Mira', ...LEFT },
        change,
        right: 'yes',
        why: null,
        hours: 23,
        steps: [],
        note: '',
      } as const;
      return familyPage(choice, facts, undefined, 'Harbour Lane', CHECKED).sections[0]?.sentences.at(-1);
    });
    expect(new Set(pages).size).toBe(CHANGES.length);
  });

  it('names the year of a step only when it is another year than the visit’s', () => {
    const facts = { day: TODAY, unit: 'in' as const, places: 16, taller: null, outlines: null };
    const steps = (['2026-11-25', '2026-12-11', '2027-01-11'] as const).map((day) => ({
      day: calendarDay(day),
      kind: 'order' as const,
      words: '',
    }));
    const choice = {
      language: 'en',
      person: { reader: 'family', name: 'Mira', ...LEFT },
      change: 'same',
      right: 'yes',
      why: null,
      hours: 23,
      steps,
      note: '',
    } as const;
    expect(familyPage(choice, facts, undefined, 'Harbour Lane', CHECKED).steps.items.map((item) => item.when)).toEqual([
      'Today',
      'By Friday, December 11',
      'By Monday, January 11, 2027',
    ]);
  });

  it('tells a gain in height only of a child, only from half a centimetre, against the visit nearest a year before', () => {
    const visits = [
      visitOf('2025-11-20', [legOf()], { height: '140 cm' }),
      visitOf('2026-06-20', [legOf()], { height: '144 cm' }),
      visitOf('2026-11-20', [legOf()], { height: '147 cm' }),
    ];
    const child = analysePatient(recordOf(visits, { born: calendarDay('2016-01-01') }), DEFAULT_POLICY, TODAY);
    expect(familyFacts(child, calendarDay('2026-11-20'), LEFT)).toMatchObject({ places: 15, taller: { byMm: 70, since: '2025-11-20' } });
    const grown = analysePatient(recordOf(visits), DEFAULT_POLICY, TODAY);
    expect(familyFacts(grown, calendarDay('2026-11-20'), LEFT)?.taller).toBeNull();
    expect(familyFacts(child, calendarDay('2026-11-20'), { limb: 'arm', side: 'left' })).toBeUndefined();
  });
});

describe('the form of the family page', () => {
  it('chooses nothing for a person: what is said of limb and garment must be chosen', () => {
    const read = readFamilyForm({ ...FORM, change: '', right: '' }, [LEFT], TODAY);
    expect(read).toEqual({
      kind: 'refused',
      errors: { change: 'Choose what you say of the limb.', right: 'Choose what you say of the garment.' },
    });
  });

  it('refuses a limb that was not taped, hours beyond a day, a step without its day, own words that are none', () => {
    const errors = (rest: Record<string, string>) => {
      const read = readFamilyForm({ ...FORM, ...rest }, [LEFT], TODAY);
      return read.kind === 'refused' ? Object.keys(read.errors) : [];
    };
    expect(errors({})).toEqual([]);
    expect(errors({ limb: 'right arm' })).toEqual(['limb']);
    expect(errors({ hours: '25' })).toEqual(['hours']);
    expect(errors({ name: '' })).toEqual(['name']);
    expect(errors({ step0Kind: 'visit' })).toEqual(['step0Day']);
    expect(errors({ step1Kind: 'visit', step1Day: '2026-11-24' })).toEqual(['step1Day']);
    expect(errors({ step0Kind: 'other', step0Day: '2026-12-01' })).toEqual(['step0Words']);
  });
});
