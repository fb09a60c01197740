import { GARMENT_FORMS, type GarmentForm } from '@/lib/garment-forms/garment-catalogue';
import { LIMBS, type Side } from '@/lib/ladder/limb';
import type { Cover, PatientRecord, Piece, Visit } from '@/lib/record/patient-record';
import { type FirstFit, KEPT_AS, REMAKE_REASONS, RETIRED_AS, type WearIn, ZONE_FITS } from '@/lib/record/piece-life';
import { addDays, type CalendarDay } from '@/lib/units/calendar-day';
import type { Random } from '../cohort/random';
import { typed } from '../cohort/tape-ladder';

/** One to four pieces of somebody, most cut from the first visits, in every stage of a piece's life; some of one order, some made to named measures alone. */
export function madeUpPieces({ visits }: PatientRecord, random: Random): Piece[] {
  const measured = visits.filter(({ ladders }) => ladders.length > 0);
  if (measured.length === 0) return [];
  const orders = 1 + Math.floor(random.uniform() * 3);
  return Array.from({ length: orders }).flatMap((_, order) => {
    const visit = measured[Math.floor(random.uniform() ** 2 * measured.length)] as Visit;
    const first = onePiece(`${2 * order + 1}`, `order ${order}`, visit, random);
    return random.uniform() < 0.4
      ? [first, { ...first, ...lifeOf(visit.day, first.garment?.form, random), piece: `${2 * order + 2}` }]
      : [first];
  });
}

function onePiece(piece: string, orderId: string, visit: Visit, random: Random): Piece {
  const ladder = random.pick(visit.ladders);
  const byMeasures = visit.measures?.length && random.uniform() < 0.3 ? visit.measures[0] : undefined;
  const forms = GARMENT_FORMS.filter((one) => (byMeasures ? one.madeTo === byMeasures.part : !one.madeTo && one.limb === ladder.limb));
  const form = forms.length > 0 ? random.pick(forms) : undefined;
  const [far, middle, near] = LIMBS[ladder.limb].landmarks;
  const covers = random.pick<Cover>([
    { from: far, to: near },
    { from: far, to: middle },
    { from: middle, to: near },
    { from: typed(40, ladder.unit, true), to: typed(260, ladder.unit, true) },
  ]);
  const alone = byMeasures !== undefined && form !== undefined;
  const side: Side = ladder.side;
  return {
    piece,
    orderId,
    limb: alone ? form.limb : ladder.limb,
    side: alone && (form.limb === 'trunk' || form.limb === 'head') ? 'middle' : side,
    covers: alone ? 'measures' : covers,
    cutFrom: visit.day,
    cutFromVisitId: visit.visitId ?? null,
    reductionPct: random.pick([5, 10, 12.5, 15, 20]),
    convention: random.pick(['C(1-r)', 'C/(1+r)']),
    allowance: random.pick([null, typed(12, ladder.unit, false), typed(25, ladder.unit, false)]),
    lifeDays: random.pick([90, 120, 182, 365]),
    leadDays: random.pick([10, 21, 35]),
    garment: form ? garmentOf(form, random) : null,
    ...lifeOf(visit.day, form?.id, random),
  };
}

function garmentOf({ id }: GarmentForm, random: Random): NonNullable<Piece['garment']> {
  const pressure = { scheme: 'of the clinic', name: 'II', lowMmHg: 20, highMmHg: 30 };
  const options = random.uniform() < 0.3 ? [{ kind: 'closure', choice: 'zip', place: 'inner side', width: null } as const] : [];
  return { form: id, use: random.pick(['day', 'day', 'night', 'other']), pressure: random.pick([null, pressure]), options };
}

/** What became of a piece: how far it came, and what was done to it on the way. */
function lifeOf(cut: CalendarDay, form: string | undefined, random: Random) {
  const after = (days: number) => addDays(cut, Math.round(days * (0.5 + random.uniform())));
  const stage = Math.floor(random.uniform() * 7);
  const worn = stage >= 3 ? after(40) : null;
  return {
    expected: stage >= 1 ? after(25) : null,
    delivered: stage >= 2 ? after(28) : null,
    firstWorn: worn,
    firstFit: stage >= 4 ? worn : null,
    fit: stage >= 4 && worn ? fitOn(worn, form, random) : null,
    wearIn: stage >= 3 && worn && random.uniform() < 0.5 ? wearInFrom(worn, random) : null,
    kept: random.uniform() < 0.4 ? [{ from: cut, as: random.pick(KEPT_AS) }] : null,
    alterations:
      worn && random.uniform() < 0.25
        ? [{ day: addDays(worn, 30), kind: 'let out' as const, width: typed(random.pick([6, 12]), 'cm', false), words: null }]
        : null,
    retired: stage >= 6 && worn ? addDays(worn, 60) : null,
    retiredAs: stage >= 6 ? random.pick(RETIRED_AS) : null,
  };
}

function fitOn(day: CalendarDay, form: string | undefined, random: Random): FirstFit {
  const zones = (GARMENT_FORMS.find(({ id }) => id === form)?.zones ?? []).map((zone) => ({ zone, fit: random.pick(ZONE_FITS) }));
  const outcome = random.pick(['keep', 'keep', 'alter', 'remake'] as const);
  return {
    day,
    zones,
    outcome,
    reason: outcome === 'remake' ? random.pick(REMAKE_REASONS) : null,
    words: null,
    taught: random.uniform() < 0.5,
  };
}

function wearInFrom(day: CalendarDay, random: Random): WearIn {
  const called = random.uniform() < 0.5 ? addDays(day, 4) : null;
  return { firstHours: 2, fullHours: random.pick([16, 23]), days: 7, callOn: addDays(day, 3), called, callNote: called ? 'no pain' : null };
}
