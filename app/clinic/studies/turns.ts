import type { Study } from '@/db/service/studies';
import { studyOrder } from '@/lib/study/study-order';
import { type StudyTurn, turnName } from '@/lib/study/study-plan';

/** A taping by its short name in an address; undefined where that is none. */
export function readTurn(name: string): StudyTurn | undefined {
  const found = /^(\d{1,2})-(\d{1,2})-(\d)$/.exec(name);
  return found ? { measurer: Number(found[1]), limb: Number(found[2]), repeat: Number(found[3]) } : undefined;
}

/** The next taping of a person in the drawn order, by its short name; undefined when they have typed all, tape none, or it was ended. */
export function nextTurnOf({ plan, typed, ended }: Study, personId: string): string | undefined {
  const measurer = plan.measurers.findIndex(({ id }) => id === personId);
  return measurer < 0 || ended
    ? undefined
    : studyOrder(plan, measurer)
        .map(turnName)
        .find((name) => !typed.has(name));
}
