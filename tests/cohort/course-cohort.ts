import { analysePatient } from '@/lib/analysis/analyse-patient';
import type { Policy } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import type { JudgedChange } from '@/lib/trend/judged-change';
import { calendarDay, dayNumber } from '@/lib/units/calendar-day';
import type { CoursePerson } from './course-person';
import { anatomyOf } from './limb-shape';
import { START } from './person';

/** What was said of one made-up person at one visit, against the first. */
export type Said = {
  readonly alarm: boolean;
  readonly way: 'more' | 'less' | null;
  readonly cannotTell: boolean;
  readonly swollen: boolean;
  readonly last: boolean;
  readonly visit: number;
  /** (estimate − truth) of ln girth over its stated SD; undefined where nothing is stated. */
  readonly z: number | undefined;
};

const TODAY = calendarDay('2031-01-01');

/** What the engine said of a person's left limb at every visit after the first. */
export function saidOf(one: CoursePerson, policy: Policy): Said[] {
  const limb = analysePatient(one.record, policy, TODAY).limbs.find(({ series }) => series.side === 'left');
  return (limb?.visits ?? []).flatMap(({ sinceBaseline, at }, visit): Said[] => {
    if (!sinceBaseline || isNoAnswer(sinceBaseline)) return [];
    const { verdict, explained } = sinceBaseline;
    const way = verdict === 'more-than-expected' ? 'more' : verdict === 'less-than-expected' ? 'less' : null;
    const truth = trueSwelling(one, visit, sinceBaseline, dayNumber(at.visit.day));
    return [
      {
        alarm: way !== null,
        way,
        cannotTell: verdict === 'cannot-tell',
        swollen: visit >= one.onset,
        last: visit === one.record.visits.length - 1,
        visit,
        z: explained && (Math.log(explained.unexplainedRatio) - truth) / explained.sd,
      },
    ];
  });
}

/** ln of the share of mean girth that swelling adds over the stretch compared, by slices of 4 mm on the dense limb. */
function trueSwelling(one: CoursePerson, visit: number, { change }: JudgedChange, day: number): number {
  const { shape, stretchOn } = one.someone;
  const { fromMm, toMm } = change.measured.shared.earlier;
  const zero = one.zerosMm[0] as number;
  const grown = stretchOn(day) / stretchOn(START);
  let before = 0;
  let after = 0;
  for (let place = fromMm + 2; place < toMm; place += 4) {
    const girth = one.girthMm(visit, (place + zero) * grown);
    const swollen = one.swollen(visit, anatomyOf(shape, (place + zero) / stretchOn(START)));
    before += girth ** 2;
    after += (girth * (1 + swollen)) ** 2;
  }
  return 0.5 * Math.log(after / before);
}
