import { MEASURES } from '@/lib/parts/catalogue';
import type { Part, PartSide } from '@/lib/parts/measure';
import type { NamedMeasure, PatientRecord, Visit } from '@/lib/record/patient-record';
import { ageInYears } from '@/lib/units/age';
import type { LengthUnit } from '@/lib/units/length';
import type { Random } from '../cohort/random';
import { typed } from '../cohort/tape-ladder';

/** Where no survey is at hand, mm: nobody's in particular. */
const SOME_MM = 180;

/** Most measures of a part as taken at a visit, on the affected side: a middling figure, smaller in a child, now and then far off. */
export function madeUpMeasures(part: Part, { born, sex, affected }: PatientRecord, { day }: Visit, random: Random): NamedMeasure[] {
  const size = Math.min(1, 0.4 + 0.036 * ageInYears(born, day)) * (1 + random.normal(0.03));
  const unit: LengthUnit = random.pick(['in', 'cm', 'cm']);
  return MEASURES.filter((one) => one.part === part && random.uniform() < 0.8).map((measure): NamedMeasure => {
    const side: PartSide = measure.sides === 'middle' ? 'middle' : (affected[0]?.side ?? 'left');
    const middleMm = measure.usualMm?.[sex === 'F' ? 'F' : 'M'][1] ?? measure.roughMm ?? SOME_MM;
    const lengthMm = middleMm * size * (1 + random.normal(0.02)) * (random.uniform() < 0.03 ? 1.3 : 1);
    const again = random.uniform() < 0.1 ? { again: typed(lengthMm + random.normal(4), unit, false) } : {};
    return { part, side, measure: measure.id, length: typed(lengthMm, unit, false), ...again };
  });
}
