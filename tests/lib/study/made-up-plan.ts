import type { StudyPlan } from '@/lib/study/study-plan';
import { asNanometres } from '@/lib/units/length';

/** Three legs by a first measurer and another, twice, at five heights. */
export function madeUpPlan(first: string): StudyPlan {
  return {
    limbs: ['P1', 'P2', 'P3'].map((person) => ({ person, limb: 'leg', side: 'left' })),
    measurers: [
      { id: first, name: 'R. Adeyemi' },
      { id: 'another', name: 'Bo' },
    ],
    repeats: 2,
    unit: 'cm',
    heights: [20, 24, 28, 32, 36].map((length) => ({ text: String(length), unit: 'cm', nm: asNanometres(length * 1e7) })),
    seed: 3,
  };
}
