import type { Ladder } from '@/lib/ladder/ladder';
import type { Visit } from '@/lib/record/patient-record';
import type { TypedLength } from '@/lib/units/length';
import type { Random } from '../cohort/random';
import { typed } from '../cohort/tape-ladder';

/** What goes wrong at a visit now and then: a rung misread, none read, read twice, one rung too many, a zero put elsewhere; no scale at hand. */
export function withSlips(visit: Visit, random: Random): Visit {
  return {
    ...visit,
    height: random.uniform() < 0.2 ? null : visit.height,
    weight: random.uniform() < 0.2 ? null : visit.weight,
    time: random.pick([visit.time, null, '15:00']),
    ladders: visit.ladders.map((ladder) => (random.uniform() < 0.3 ? random.pick(SLIPS)(ladder, random) : ladder)),
  };
}

type Slip = (ladder: Ladder, random: Random) => Ladder;

const SLIPS: readonly Slip[] = [
  (ladder, random) => changed(ladder, random, (girth) => typed(mmOf(girth) + random.pick([-25.4, 25.4, 50, -20]), girth.unit, false)),
  (ladder, random) => changed(ladder, random, () => null),
  (ladder, random) => {
    const at = Math.floor(random.uniform() * ladder.rungs.length);
    const rungs = ladder.rungs.map((rung, index) =>
      index === at && rung.girth ? { ...rung, again: typed(mmOf(rung.girth) + random.normal(6), ladder.unit, false) } : rung,
    );
    return { ...ladder, rungs };
  },
  ({ rungs, ...ladder }) => ({ ...ladder, rungs: rungs.map((rung, index) => ({ ...rung, girth: rungs[index + 1]?.girth ?? rung.girth })) }),
  ({ rungs, ...ladder }) => ({ ...ladder, rungs: rungs.slice(0, Math.max(2, Math.floor(rungs.length / 2))) }),
  (ladder, random) => ({ ...ladder, floorToFold: typed(760 + random.normal(40), ladder.unit, false) }),
];

function changed(ladder: Ladder, random: Random, change: (girth: TypedLength) => TypedLength | null): Ladder {
  const at = Math.floor(random.uniform() * ladder.rungs.length);
  const rungs = ladder.rungs.map((rung, index) => (index === at && rung.girth ? { ...rung, girth: change(rung.girth) } : rung));
  return { ...ladder, rungs };
}

function mmOf({ nm }: TypedLength): number {
  return nm / 1e6;
}

/** A ladder whose every girth is the same share of what it was. */
export function lessBy(ladder: Ladder, share: number): Ladder {
  const rungs = ladder.rungs.map((rung) => (rung.girth ? { ...rung, girth: typed(mmOf(rung.girth) * share, ladder.unit, false) } : rung));
  return { ...ladder, rungs };
}
