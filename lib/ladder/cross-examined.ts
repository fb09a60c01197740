import { mm } from '../units/length';
import type { Doubt, DoubtKind } from './doubt';
import type { Ladder } from './ladder';

/** Questions about the order of several rungs: with one open, no single figure has a place that can be leaned on. */
const ABOUT_ORDER: ReadonlySet<DoubtKind> = new Set(['shifted-rungs', 'swapped-neighbours']);

/** Questions about the whole ladder that hang on which rungs count. */
const ABOUT_LENGTH: ReadonlySet<DoubtKind> = new Set(['ladder-length', 'body-size']);

/** Above so many doubtful rungs, or half of a ladder, nothing is left to lean on and no offer is made. Clinic default. */
const MOST_DOUBTFUL = 8;

/** Rungs settle as doubtful or trusted in two rounds or three; more would be going round in circles. */
const MOST_ROUNDS = 4;

/** The distances (mm) of the rungs that open questions are about. Example: a question about the rung at 127 mm and one about the whole ladder → 127. */
export function doubtfulPlaces(doubts: readonly Doubt[]): ReadonlySet<number> {
  return new Set(doubts.flatMap(({ distanceMm }) => (distanceMm === null ? [] : [distanceMm])));
}

/** A ladder as if nothing had been measured at some of its rungs, by their distance, mm. */
export function withoutRungs(ladder: Ladder, placesMm: ReadonlySet<number>): Ladder {
  return placesMm.size === 0 ? ladder : { ...ladder, rungs: ladder.rungs.filter((rung) => !placesMm.has(mm(rung.distance.nm))) };
}

/**
 * The questions of a ladder, each leaning on rungs that nobody asks about: a doubtful figure never lends weight to another question.
 *
 * Every doubtful rung is asked about again beside the trusted ones alone, so that its expectation, its words and its offer rest on them;
 * one that only looked odd beside a doubtful neighbour is let go, and one that a doubtful neighbour hid is found. Where the order of
 * rungs is in question, or most of them are, no offer is left.
 * Shape: a ladder, and what asks about one (open questions only); the same kinds of question. At most 4 × (8 + 1) askings.
 * Example: 8⅛, 8⅜, 17⅜ and 92.5 in: beside 8⅛ and 8⅜ the last one is 9¼; the doubtful 17⅜ is no neighbour to it.
 */
export function crossExamined(ladder: Ladder, ask: (ladder: Ladder) => readonly Doubt[]): readonly Doubt[] {
  const first = ask(ladder);
  let open = doubtfulPlaces(first);
  if (open.size === 0) return first;
  const taped = ladder.rungs.filter((rung) => rung.girth).length;
  if (first.some(({ kind }) => ABOUT_ORDER.has(kind))) return first.map(withoutOffer);
  for (let round = 0; round < MOST_ROUNDS && open.size <= MOST_DOUBTFUL; round++) {
    const among = ask(withoutRungs(ladder, open));
    const beside = (place: number) => (open.size === 1 && round === 0 ? first : ask(withoutRungs(ladder, others(open, place))));
    const singles = [...open].flatMap((place) => beside(place).filter(({ distanceMm }) => distanceMm === place));
    const whole = [...first.filter((one) => isWhole(one) && !ABOUT_LENGTH.has(one.kind)), ...among.filter(isAboutLength)];
    const next = new Set([...doubtfulPlaces(singles), ...doubtfulPlaces(among)]);
    if (isSame(next, open)) {
      const settled = [...whole, ...singles.sort((one, other) => (one.distanceMm ?? 0) - (other.distanceMm ?? 0))];
      return open.size * 2 > taped ? settled.map(withoutOffer) : settled;
    }
    open = next;
  }
  return first.map(withoutOffer);
}

function others(open: ReadonlySet<number>, place: number): ReadonlySet<number> {
  return new Set([...open].filter((one) => one !== place));
}

function isWhole({ distanceMm }: Doubt): boolean {
  return distanceMm === null;
}

function isAboutLength(doubt: Doubt): boolean {
  return isWhole(doubt) && ABOUT_LENGTH.has(doubt.kind);
}

function isSame(one: ReadonlySet<number>, other: ReadonlySet<number>): boolean {
  return one.size === other.size && [...one].every((place) => other.has(place));
}

/** The same question without its guess: which figure is right stays with whoever holds the tape. A second measuring stands by itself. */
function withoutOffer(doubt: Doubt): Doubt {
  if (doubt.wouldFitMm === undefined || doubt.kind === 'taped-twice') return doubt;
  const { wouldFitMm: _offer, ...bare } = doubt;
  const end = doubt.message.indexOf('?');
  return {
    ...bare,
    message: `${doubt.message.slice(0, end).replace(/ or .*$/, '')}? Too few figures beside it are free of questions to say what would fit.`,
  };
}
