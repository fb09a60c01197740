import type { PatientAnalysis } from '../../analysis/analyse-patient';
import { buildUp } from '../../garments/build-up';
import { inUse } from '../../garments/wear';
import { LIMBS } from '../../ladder/limb';
import { REPLY_PLACES } from '../../observations/family-reply';
import { marksOnOutline } from '../../observations/marks-on-outline';
import type { LimbSide } from '../../record/patient-record';
import { REACH_95 } from '../../statistics/reach-95';
import { heightOnLimb } from '../../trend/limb-series';
import { measureSeries } from '../../trend/measure-series';
import type { SeriesVisit } from '../../trend/series-visit';
import { addMonths, type CalendarDay, daysBetween } from '../../units/calendar-day';
import { mm } from '../../units/length';
import type { FamilyFacts, FamilyOutline, MarkedOutline } from './family-content';
import { pictureEnds } from './picture-ends';

/** How far back the page compares: the visit nearest a year before, at least two months back. Common practice of growth talks. */
const MONTHS_BACK = 12;
const LEAST_DAYS_BACK = 60;

/**
 * The measured data of one visit for the family page: places taped, height gained, outlines then and now. No rule, no verdict, no volume.
 *
 * Shape: an analysis, the day of a visit, a limb; undefined when the limb was not taped that day. Height gained only while growing.
 */
export function familyFacts(analysis: PatientAnalysis, day: CalendarDay, { limb, side }: LimbSide): FamilyFacts | undefined {
  const own = analysis.limbs.find((one) => one.series.limb === limb && one.series.side === side);
  const now = own?.series.visits.find((one) => one.visit.day === day);
  if (!own || !now) return undefined;
  const { series } = own;
  const inPhase = own.visits.find(({ at }) => at === now)?.inPhase;
  const baseline = inPhase?.baseline.visit.day;
  const earlier = nearest(
    series.visits.filter((one) => daysBetween(one.visit.day, day) >= LEAST_DAYS_BACK),
    day,
  );
  return {
    day,
    unit: now.ladder.unit,
    places: now.ladder.rungs.filter((rung) => rung.girth).length,
    ...(inPhase?.phase && { phase: { kind: inPhase.phase.kind, comparedWith: baseline && baseline < day ? baseline : null } }),
    taller: taller(analysis, now, day),
    ...endOfLimb(analysis, now, { limb, side }),
    ...planOnDay(analysis, day, { limb, side }),
    marked: placesOn(now),
    outlines: { earlier: earlier ? outlineOf(earlier) : null, now: outlineOf(now), ends: pictureEnds(now) },
  };
}

function nearest<T extends { readonly visit: { readonly day: CalendarDay } }>(visits: readonly T[], day: CalendarDay): T | undefined {
  const aYearAgo = addMonths(day, -MONTHS_BACK);
  const off = (one: T): number => Math.abs(daysBetween(one.visit.day, aYearAgo));
  return [...visits].sort((one, other) => off(one) - off(other))[0];
}

function taller({ record }: PatientAnalysis, now: SeriesVisit, day: CalendarDay): FamilyFacts['taller'] {
  const height = now.visit.height;
  if (!height || !now.growing) return null;
  const before = record.visits.flatMap((visit) =>
    visit.height && daysBetween(visit.day, day) >= LEAST_DAYS_BACK ? [{ visit, height: visit.height }] : [],
  );
  const since = nearest(before, day);
  if (!since) return null;
  return { byMm: mm(height.nm) - mm(since.height.nm), since: since.visit.day };
}

/** The lengths that show growth of a hand or foot, the surest first. */
const LONG = { arm: ['hand-length', 'middle-finger-length'], leg: ['foot-length'] } as const;

/** How many measures of the limb's hand or foot were taken, and by how much it grew: only while growing, and only beyond tape error. */
function endOfLimb(analysis: PatientAnalysis, now: SeriesVisit, { limb, side }: LimbSide): Pick<FamilyFacts, 'part'> {
  const part = limb === 'leg' ? 'foot' : 'hand';
  const places = (now.visit.measures ?? []).filter((one) => one.part === part && one.side === side).length;
  if (places === 0) return {};
  const series = measureSeries(analysis.trusted, analysis.policy).filter(({ taken }) => taken.part === part && taken.side === side);
  const grown = LONG[limb].flatMap((id) => {
    const visits = series.find(({ measure }) => measure.id === id)?.visits.filter(({ doubts }) => doubts.length === 0) ?? [];
    const own = visits.find(({ visit }) => visit.day === now.visit.day);
    const before = nearest(
      visits.filter(({ visit }) => daysBetween(visit.day, now.visit.day) >= LEAST_DAYS_BACK),
      now.visit.day,
    );
    if (!own || !before) return [];
    const byMm = own.lengthMm - before.lengthMm;
    return byMm > REACH_95 * Math.hypot(own.sdMm, before.sdMm) ? [{ byMm, since: before.visit.day }] : [];
  });
  return { part: { places, longer: (now.growing && grown[0]) || null } };
}

/** The build-up of hours of the piece of this limb that was first worn last, while its wear-in runs on the day. */
function planOnDay({ record, policy }: PatientAnalysis, day: CalendarDay, { limb, side }: LimbSide): Pick<FamilyFacts, 'plan'> {
  const [newest] = record.pieces
    .filter((piece) => piece.limb === limb && piece.side === side && piece.wearIn && inUse(piece, day) && (piece.firstWorn ?? day) <= day)
    .sort((one, other) => (other.firstWorn ?? '').localeCompare(one.firstWorn ?? ''));
  const plan = newest ? buildUp(newest, policy.wearInSteps) : [];
  const full = plan.at(-1);
  return full && day < full.from ? { plan } : {};
}

/** The outline with the places of a reply on one scale; null where one of both landmarks is not known on the ladder. */
function placesOn(at: SeriesVisit): MarkedOutline | null {
  const { line, landmarks } = at.placed;
  const [far, , near] = LIMBS[at.ladder.limb].landmarks;
  const [farMm, nearMm] = [landmarks.get(far)?.placeMm, landmarks.get(near)?.placeMm];
  const lengthMm = farMm === undefined || nearMm === undefined ? undefined : nearMm - farMm;
  const scaled = marksOnOutline(
    REPLY_PLACES,
    line.placesMm.map((place) => heightOnLimb(at, place)),
    lengthMm,
  );
  const short = (share: number) => Math.round(share * 1000) / 1000;
  return scaled ? { rungs: scaled.rungs.map(short), girthsMm: line.girthsMm.map(Math.round), places: scaled.marks.map(short) } : null;
}

function outlineOf(at: SeriesVisit): FamilyOutline {
  const heightsMm = at.placed.line.placesMm.map((place) => heightOnLimb(at, place));
  const [lowest = 0, highest = 0] = [Math.min(...heightsMm), Math.max(...heightsMm)];
  return { day: at.visit.day, heightsMm, girthsMm: at.placed.line.girthsMm, lengthMm: lowest > 0 ? highest : highest - lowest };
}
