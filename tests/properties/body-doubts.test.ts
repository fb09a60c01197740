import { afterAll, describe, expect, it } from 'vitest';
import { bodyDoubtsNow, recordBodyDoubts } from '@/lib/doubts/record-body-doubts';
import { valueAtZ } from '@/lib/growth/z-score';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import type { PatientRecord, Visit } from '@/lib/record/patient-record';
import { dayFromNumber, dayNumber } from '@/lib/units/calendar-day';
import { type Random, seeded } from '@/tests/cohort/random';
import { BODY_SLIPS, lengthOf, massOf, withSlip } from './body-slips';

const PEOPLE = 600;
const rows: Record<string, string | number>[] = [];
afterAll(() => console.table(rows));

/**
 * A made-up person over two to six visits. What the questions do not assume: heights read 4 to 9 mm apart, weights in pounds or kilograms,
 * grown weights that drift by up to 12 % in half a year, children whose weight runs ahead of their height, gaps from 3 weeks to 14 months.
 */
function madeUp(random: Random): PatientRecord {
  const sex = random.uniform() < 0.5 ? 'F' : 'M';
  const child = random.uniform() < 0.5;
  const start = dayNumber(dayFromNumber(20_400));
  const age = child ? 1.5 + 14 * random.uniform() : 20 + 60 * random.uniform();
  const born = dayFromNumber(start - Math.round(age * 365.25));
  const inPounds = random.uniform() < 0.5;
  const inInches = random.uniform() < 0.5;
  const heightZ = random.normal(1);
  const weightZ = 0.7 * heightZ + random.normal(0.7);
  const grown = {
    heightMm: (sex === 'F' ? 1628 : 1756) + random.normal(70),
    weightKg: (sex === 'F' ? 70 : 84) * Math.exp(random.normal(0.2)),
  };
  const yearly = random.uniform() < 0.25 ? 0.24 * (random.uniform() - 0.5) * 2 : random.normal(0.03);
  const readingMm = 4 + 5 * random.uniform();
  let day = start;
  let [heightDrift, weightDrift] = [0, 0];
  const visits: Visit[] = [];
  const count = 2 + Math.floor(5 * random.uniform());
  for (let visit = 0; visit < count; visit++) {
    const gap = visit === 0 ? 0 : Math.round(21 + 380 * random.uniform() ** 2);
    day += gap;
    const years = gap / 365.25;
    heightDrift += random.normal(0.2 * Math.sqrt(years));
    weightDrift += random.normal(0.3 * Math.sqrt(years));
    const body = child
      ? childAt(day, born, sex, heightZ + heightDrift, weightZ + weightDrift)
      : {
          heightMm: grown.heightMm,
          weightKg: grown.weightKg * Math.exp(yearly * Math.min((day - start) / 365.25, 0.5) + random.normal(0.012)),
        };
    const height = body.heightMm + random.normal(readingMm);
    visits.push({
      day: dayFromNumber(day),
      time: null,
      posture: null,
      measurer: null,
      note: null,
      ladders: [],
      height: inInches ? lengthOf((Math.round((height / 25.4) * 4) / 4).toFixed(2), 'in') : lengthOf((height / 10).toFixed(1), 'cm'),
      weight: inPounds ? massOf(((body.weightKg * 2.20462) as number).toFixed(1), 'lb') : massOf(body.weightKg.toFixed(1), 'kg'),
    });
  }
  return { reference: 'made up', born, sex, affected: [], visits, pieces: [] };
}

function childAt(day: number, born: ReturnType<typeof dayFromNumber>, sex: 'F' | 'M', heightZ: number, weightZ: number) {
  const at = (measure: 'height' | 'weight', z: number) => {
    const found = valueAtZ('who', measure, sex, day - dayNumber(born), z);
    const or = isNoAnswer(found) ? valueAtZ('cdc-2000', measure, sex, day - dayNumber(born), z) : found;
    if (isNoAnswer(or)) throw new RangeError('outside the tables');
    return or.value;
  };
  return { heightMm: 10 * at('height', heightZ), weightKg: at('weight', weightZ) };
}

const kindsOf = (doubts: readonly { kind: string }[] | undefined) => (doubts ?? []).map(({ kind }) => kind);

describe('slips in height and weight', () => {
  it.each(BODY_SLIPS)('%s is asked about, in the whole record and when it is typed', (slip) => {
    for (const measure of ['height', 'weight'] as const) {
      const random = seeded(311);
      let [planted, found, later, laterFound, first, firstFound] = [0, 0, 0, 0, 0, 0];
      for (let one = 0; one < PEOPLE; one++) {
        const record = madeUp(random);
        const index = Math.floor(record.visits.length * random.uniform());
        const visit = withSlip(record.visits[index] as Visit, measure, slip, random);
        if (!visit) continue;
        const visits = record.visits.map((was, at) => (at === index ? visit : was));
        planted += 1;
        const open = recordBodyDoubts({ ...record, visits }, DEFAULT_POLICY).get(visit);
        found += Number(kindsOf(open).includes(measure));
        const now = bodyDoubtsNow({ ...record, visits: visits.slice(0, index + 1) }, visit, DEFAULT_POLICY);
        if (index > 0) {
          later += 1;
          laterFound += Number(kindsOf(now).includes(measure));
        } else {
          first += 1;
          firstFound += Number(now.length > 0);
        }
      }
      rows.push({
        slip,
        measure,
        planted,
        'in the record %': pct(found, planted),
        'typed, with a last visit %': pct(laterFound, later),
        'typed, first visit %': pct(firstFound, first),
      });
      expect(found / planted).toBeGreaterThanOrEqual(0.95);
      expect(laterFound / later).toBeGreaterThanOrEqual(0.95);
    }
  });

  it('at most one clean visit in a hundred is asked about', () => {
    const random = seeded(313);
    let [visits, asked, typed] = [0, 0, 0];
    for (let one = 0; one < 1500; one++) {
      const record = madeUp(random);
      visits += record.visits.length;
      asked += recordBodyDoubts(record, DEFAULT_POLICY).size;
      record.visits.forEach((visit, index) => {
        typed += Number(bodyDoubtsNow({ ...record, visits: record.visits.slice(0, index + 1) }, visit, DEFAULT_POLICY).length > 0);
      });
    }
    rows.push({ slip: 'none', planted: visits, 'in the record %': pct(asked, visits), 'typed, with a last visit %': pct(typed, visits) });
    expect(asked / visits).toBeLessThanOrEqual(0.01);
    expect(typed / visits).toBeLessThanOrEqual(0.01);
  });
});

function pct(part: number, whole: number): number {
  return Math.round((1000 * part) / whole) / 10;
}
