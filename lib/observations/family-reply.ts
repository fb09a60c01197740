import { type LimbKind, limbInWords, type Side } from '../ladder/limb';
import type { Policy } from '../limits/policy';
import { type CalendarDay, showDay } from '../units/calendar-day';
import type { Observation, PlaceOnLimb } from './observation';

/** What a family can say of a place: a red mark, sore, the garment slides there, something else. */
export const REPLY_SIGNS = ['red', 'sore', 'slides', 'other'] as const;
export type ReplySign = (typeof REPLY_SIGNS)[number];

/** The places a family can choose, from the far landmark (0) to the near one (1). */
export const REPLY_PLACES = [0, 0.25, 0.5, 0.75, 1] as const;

/** A place with what the family says of it. */
export type ReplyMark = { readonly place: PlaceOnLimb; readonly sign: ReplySign };

/** What the clinic did about a reply: read it, rang, or rang and nobody answered; after that it is still to be done. */
export const REPLY_DEEDS = ['seen', 'rung', 'tried'] as const;
export type ReplyAnswer = {
  readonly did: (typeof REPLY_DEEDS)[number];
  readonly day: CalendarDay;
  readonly by: string;
  readonly words: string | null;
};

/**
 * What a family sent back by the link of its page: theirs, as told. No figure of the record changes by it and no prompt is answered.
 *
 * `day` and `time` are of the clinic's clock when it came; `pageOf` is the day of the visit that the page was about; `planned` the hours a day
 * that the page asked for on that day.
 */
export type FamilyReply = {
  readonly day: CalendarDay;
  readonly time: string;
  readonly pageOf: CalendarDay;
  readonly hours: number | null;
  readonly planned: number | null;
  readonly marks: readonly ReplyMark[];
  readonly call: boolean;
  readonly words: string | null;
  readonly by: string | null;
  readonly answer: ReplyAnswer | null;
};

/** A reply under its id. */
export type KeptReply = FamilyReply & { readonly replyId: string };

/** Longest words, longest name, longest words of an answer. Program bounds: they fit a line or two. */
export const REPLY_BOUNDS = { words: 200, by: 60, answer: 200 } as const;

/** Whether the clinic is done with a reply: an answer is noted that is not only a call that nobody took. */
export function isSettled({ answer }: Pick<FamilyReply, 'answer'>): boolean {
  return answer !== null && answer.did !== 'tried';
}

/** What a reply asks of the clinic: to ring, to look at it, or nothing: it was answered, or tells of enough hours alone. */
export function askedBy(reply: FamilyReply, { wearToldLowPct }: Pick<Policy, 'wearToldLowPct'>): 'call' | 'look' | null {
  if (isSettled(reply)) return null;
  if (reply.call) return 'call';
  return reply.marks.length > 0 || reply.words !== null || isFarBelowPlan(reply, wearToldLowPct) ? 'look' : null;
}

/**
 * Whether the hours told lie below so many per cent of those planned. Example: 6 of 12 at 75 % is below 9: yes; 9 of 12: no; without a plan: no.
 */
export function isFarBelowPlan({ hours, planned }: Pick<FamilyReply, 'hours' | 'planned'>, lowPct: number): boolean {
  return hours !== null && planned !== null && 100 * hours < lowPct * planned;
}

const PLACE_WORDS: Readonly<Record<LimbKind, readonly string[]>> = {
  leg: ['ankle', 'calf', 'knee', 'thigh', 'top of the thigh'],
  arm: ['wrist', 'forearm', 'elbow', 'upper arm', 'armpit'],
};
const SIGN_WORDS: Readonly<Record<ReplySign, string>> = {
  red: 'a red mark',
  sore: 'sore',
  slides: 'it slides',
  other: 'something else',
};

/** When a reply came, by which each is told from others: `24 Oct 2026 at 09:30`. */
export function whenTold({ day, time }: Pick<KeptReply, 'day' | 'time'>): string {
  return `${showDay(day)} at ${time}`;
}

/**
 * A reply in the words of the clinic, part by part, theirs in quotes.
 *
 * Example: `worn 6 h a day, 12 h planned`; `right leg, knee: a red mark`; `asks to be rung`; `“It rubs at night.”`; `written by Ada`.
 */
export function replyParts({ hours, planned, marks, call, words, by }: FamilyReply): readonly string[] {
  const plan = planned === null ? '' : `, ${planned} h planned`;
  return [
    ...(call ? ['asks to be rung'] : []),
    ...(hours === null ? [] : [`worn ${hours} h a day${plan}`]),
    ...marks.map(({ place, sign }) => `${placeToldInWords(place)}: ${SIGN_WORDS[sign]}`),
    ...(words ? [`“${words}”`] : []),
    ...(by ? [`written by ${by}`] : []),
  ];
}

/** A place as a family chose it. Example: `right leg, knee`. */
function placeToldInWords({ limb, side, along }: { limb: LimbKind; side: Side; along: number }): string {
  const nearest = PLACE_WORDS[limb][Math.round(along * (REPLY_PLACES.length - 1))];
  return `${limbInWords(limb, side)}, ${nearest}`;
}

const DEED_WORDS: Readonly<Record<ReplyAnswer['did'], string>> = { rung: 'Rung', seen: 'Seen', tried: 'Tried, nobody answered,' };

/** An answer in words. Example: `Rung on 2 Dec 2026 by R. Adeyemi: all well`; `Tried, nobody answered, on 2 Dec 2026 by R. Adeyemi`. */
export function answerInWords({ did, by, words }: ReplyAnswer, day: string): string {
  return `${DEED_WORDS[did]} on ${day} by ${by}${words ? `: ${words}` : ''}`;
}

/** Hours told by the family as a time line of its own, beside the clinic's. */
export const TOLD_WEAR = {
  id: 'told-by-the-family',
  version: '1',
  label: 'Wear, told by the family',
  asks: 'How many hours a day was it worn?',
  items: [{ id: 'hours', label: 'Hours worn a day, told by the family', unit: 'h', low: 0, high: 24 }],
  where: 'nowhere',
  choices: [],
  error: null,
  source: 'As told by the link of the family page, not as worn: no error is known.',
} as const;

/** The hours of replies as observations of `TOLD_WEAR`, in their order. */
export function toldWear(replies: readonly FamilyReply[]): readonly Observation[] {
  return replies.flatMap(({ day, hours }) =>
    hours === null
      ? []
      : [
          {
            ...{ kind: TOLD_WEAR.id, version: TOLD_WEAR.version, day, figures: { hours } },
            ...{ choice: null, side: null, place: null, gone: null, rater: null, words: null },
          },
        ],
  );
}

/** Replies by day and clock time; those of one minute stay in the order they are given in. */
export function inOrderOfReply<T extends KeptReply>(replies: readonly T[]): readonly T[] {
  const key = ({ day, time }: KeptReply) => `${day} ${time}`;
  return [...replies].sort((one, other) => key(one).localeCompare(key(other)));
}
