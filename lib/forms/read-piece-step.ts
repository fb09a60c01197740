import { formOf } from '../garment-forms/own-form';
import { isHeldBack } from '../garments/piece-stage';
import type { Piece } from '../record/patient-record';
import {
  type FirstFit,
  REMAKE_REASONS,
  RETIRED_AS,
  type RemakeReason,
  type RetiredAs,
  ZONE_FITS,
  type ZoneFit,
} from '../record/piece-life';
import { addDays, type CalendarDay, readDay, showDay } from '../units/calendar-day';
import { mm } from '../units/length';
import { readLength } from '../units/read-length';

/** A step in the life of a piece, each with a form of its own. */
export const PIECE_STEPS = ['release', 'delivered', 'first-fit', 'worn', 'called', 'keep', 'let-out', 'altered', 'retire'] as const;
export type PieceStep = (typeof PIECE_STEPS)[number];

/** What a step's form posts: its boxes by name, the zones as `zone/heel`. */
export type TypedStep = Readonly<Record<string, string>>;

/** The piece after the step and the words that go on record; or one sentence beside each box that stops it. */
export type StepRead =
  | { readonly kind: 'read'; readonly piece: Piece & { readonly retiredReason?: string | null }; readonly reason: string }
  | { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> };

/** Zones judged at the first fit of a piece: those of its form, else three that every tube has. */
export function zonesOf(piece: Pick<Piece, 'garment'>): readonly string[] {
  return formOf(piece.garment)?.zones || ['bottom edge', 'middle', 'top edge'];
}

/**
 * One step of a piece's life from what was typed.
 *
 * “All good” is good for each zone that has no exception, and keeps the piece where none has.
 * Refuses days that have not come or run backwards, a fit without a verdict for each zone, an alteration or remake without its reason, a
 * let-out wider than the room sewn in, going out of use without a reason, and a release against which something stands without words.
 * Shape: the step, its boxes, the piece as it stands, today, what stands against the step (`orders/against-release`); the piece after it.
 */
export function readPieceStep(
  step: PieceStep,
  typed: TypedStep,
  piece: Piece,
  today: CalendarDay,
  against: readonly string[] = [],
): StepRead {
  const boxes = new Boxes(typed, today, against);
  const { after, reason } = STEPS[step](boxes, piece);
  return Object.keys(boxes.errors).length > 0
    ? { kind: 'refused', errors: boxes.errors }
    : { kind: 'read', piece: { ...piece, ...after }, reason };
}

type After = { readonly after: Partial<Piece> & { readonly retiredReason?: string | null }; readonly reason: string };

const STEPS: Readonly<Record<PieceStep, (boxes: Boxes, piece: Piece) => After>> = {
  release: (boxes, piece) => {
    const held = (piece.kept ?? []).filter(({ as }) => as === 'held back');
    if (!isHeldBack(piece)) boxes.refuse('day', 'It is not held back. Nothing was changed.');
    const from = boxes.day('day', held.at(-1)?.from ?? piece.cutFrom, 'the day its order was sent');
    const expected = boxes.expected('expected', from);
    const words = boxes.words('words');
    if (boxes.against.length > 0 && !words) boxes.refuse('words', 'Say in a few words why it is made all the same.');
    const kept = from ? [...held, { from, as: 'rotation' as const }] : held;
    return {
      after: { kept, expected: expected ?? (from && addDays(from, piece.leadDays)) },
      reason: words ? `released: ${words}` : 'released',
    };
  },
  delivered: (boxes, piece) => {
    if (piece.delivered) boxes.refuse('day', 'It is on record as delivered already.');
    const day = boxes.day('day', piece.cutFrom, 'the measurements it was made to');
    return { after: { delivered: day, firstFit: null }, reason: 'delivered' };
  },
  'first-fit': (boxes, piece) => firstFit(boxes, piece),
  worn: (boxes, piece) => {
    const day = boxes.day('day', piece.delivered ?? piece.cutFrom, piece.delivered ? 'its delivery' : 'the measurements it was made to');
    return { after: { firstWorn: day, wearIn: wearIn(boxes, day) }, reason: 'first worn' };
  },
  called: (boxes, piece) => {
    const called = boxes.day('day', piece.firstWorn ?? piece.cutFrom, 'first wear');
    if (!piece.wearIn) boxes.refuse('day', 'No wear-in is planned for this piece.');
    return {
      after: { wearIn: piece.wearIn ? { ...piece.wearIn, called, callNote: boxes.words('words') } : null },
      reason: 'early call made',
    };
  },
  keep: (boxes, piece) => {
    const as = boxes.oneOf('as', ['rotation', 'spare'] as const, 'Choose whether it is in rotation or kept as a spare.');
    const from = boxes.day('day', piece.firstWorn ?? piece.cutFrom, piece.firstWorn ? 'first wear' : 'the measurements it was made to');
    const before = (piece.kept ?? []).filter((one) => one.as === 'held back' || (from !== null && one.from < from));
    const kept = [...before, ...(as && from ? [{ from, as }] : [])];
    return { after: { kept }, reason: as === 'spare' ? 'kept as a spare' : 'in rotation' };
  },
  'let-out': (boxes, piece) => {
    const day = boxes.day('day', piece.firstWorn ?? piece.cutFrom, 'first wear');
    const width = boxes.width('width', piece);
    const done = { kind: 'let out' as const, day: day as CalendarDay, width, words: boxes.words('words') };
    return { after: { alterations: [...(piece.alterations ?? []), done] }, reason: `let out by ${width?.text ?? ''}`.trim() };
  },
  altered: (boxes, piece) => {
    const day = boxes.day('day', piece.cutFrom, 'the measurements it was made to');
    const words = boxes.words('words') ?? boxes.refuse('words', 'Say what was altered.');
    const done = { kind: 'altered' as const, day: day as CalendarDay, width: null, words };
    return { after: { alterations: [...(piece.alterations ?? []), done] }, reason: `altered: ${words ?? ''}` };
  },
  retire: (boxes, piece) => {
    const retired = boxes.day('day', piece.firstWorn ?? piece.cutFrom, piece.firstWorn ? 'first wear' : 'the measurements it was made to');
    const retiredAs = boxes.oneOf<RetiredAs>('as', RETIRED_AS, 'Choose why it goes out of use.');
    const words = boxes.words('words');
    const retiredReason = [retiredAs === 'worn' ? 'worn out' : retiredAs, words].filter(Boolean).join(': ');
    return { after: { retired, retiredAs, retiredReason }, reason: 'taken out of use' };
  },
};

function firstFit(boxes: Boxes, piece: Piece): After {
  const since = piece.delivered ?? piece.cutFrom;
  const day = boxes.day('day', since, piece.delivered ? 'its delivery' : 'the measurements it was made to');
  const allGood = boxes.text('allGood') === 'yes';
  const fitAt = (zone: string): ZoneFit =>
    allGood && boxes.text(`zone/${zone}`) === ''
      ? 'good'
      : (boxes.oneOf<ZoneFit>(`zone/${zone}`, ZONE_FITS, `Say how it sits at the ${zone}.`) as ZoneFit);
  const zones = zonesOf(piece).map((zone) => ({ zone, fit: fitAt(zone) }));
  const kept = allGood && boxes.text('outcome') === '' && zones.every((one) => one.fit === 'good');
  const outcome = kept
    ? ('keep' as const)
    : boxes.oneOf('outcome', ['keep', 'alter', 'remake'] as const, 'Choose what follows: keep, alter or remake.');
  const reason =
    outcome === 'alter' || outcome === 'remake'
      ? boxes.oneOf<RemakeReason>('reason', REMAKE_REASONS, 'Choose the reason: counted over the year it shows what goes wrong.')
      : null;
  const words = boxes.words('words');
  if (outcome === 'keep' && zones.some((one) => one.fit && one.fit !== 'good') && !words)
    boxes.refuse('words', 'A zone does not sit well and the piece is kept: say why in a few words.');
  const fit: FirstFit | null = day && outcome ? { day, zones, outcome, reason, words, taught: boxes.text('taught') === 'yes' } : null;
  if (outcome !== 'keep')
    return { after: { fit, firstFit: null, delivered: null }, reason: `first fit: ${outcome ?? ''}, ${reason ?? ''}` };
  const worn = boxes.text('wornToday') === 'yes' && !piece.firstWorn ? { firstWorn: day, wearIn: wearIn(boxes, day) } : {};
  return { after: { fit, firstFit: day, ...worn }, reason: 'first fit: keep' };
}

function wearIn(boxes: Boxes, firstWorn: CalendarDay | null): Piece['wearIn'] {
  const firstHours = boxes.whole('firstHours', 1, 24, 'hours');
  const fullHours = boxes.whole('fullHours', 1, 24, 'hours');
  const days = boxes.whole('wearInDays', 1, 60, 'days');
  const call = boxes.whole('callAfter', 1, 60, 'days');
  if (firstHours === null || fullHours === null || days === null || call === null || !firstWorn) return null;
  if (fullHours < firstHours) boxes.refuse('fullHours', 'Hours build up: the full hours are not fewer than the first.');
  return { firstHours, fullHours, days, callOn: addDays(firstWorn, call), called: null, callNote: null };
}

/** The boxes of one step, with the first reason each is refused for. */
class Boxes {
  readonly errors: Record<string, string> = {};
  constructor(
    private readonly typed: TypedStep,
    private readonly today: CalendarDay,
    readonly against: readonly string[],
  ) {}

  refuse(box: string, reason: string): null {
    this.errors[box] ??= reason;
    return null;
  }

  text(box: string): string {
    return (this.typed[box] ?? '').trim();
  }

  words(box: string): string | null {
    return this.text(box) || null;
  }

  day(box: string, earliest: CalendarDay, of: string): CalendarDay | null {
    const day = readDay(this.text(box));
    if (day.kind !== 'read') return this.refuse(box, this.text(box) === '' ? 'Type the day.' : day.reason);
    if (day.value > this.today) return this.refuse(box, 'This day has not come yet.');
    if (day.value < earliest) return this.refuse(box, `This is before ${of}, ${showDay(earliest)}.`);
    return day.value;
  }

  /** A day that is still to come or today, or none. */
  expected(box: string, earliest: CalendarDay | null): CalendarDay | null {
    if (this.text(box) === '') return null;
    const day = readDay(this.text(box));
    if (day.kind !== 'read') return this.refuse(box, day.reason);
    if (earliest && day.value < earliest) return this.refuse(box, 'This is before it was released.');
    return day.value;
  }

  oneOf<const T extends string>(box: string, choices: readonly T[], ask: string): T | null {
    return choices.find((one) => one === this.text(box)) ?? this.refuse(box, ask);
  }

  whole(box: string, least: number, most: number, unit: string): number | null {
    const text = this.text(box);
    if (/^\d{1,3}$/.test(text) && Number(text) >= least && Number(text) <= most) return Number(text);
    return this.refuse(box, `Type whole ${unit}, ${least} to ${most}.`);
  }

  width(box: string, piece: Piece) {
    if (!piece.allowance) return this.refuse(box, 'No room was sewn into this piece. Write another change as an alteration.');
    const width = readLength(this.text(box), piece.allowance.unit);
    if (width.kind !== 'read') return this.refuse(box, width.reason);
    const already = (piece.alterations ?? []).reduce((sum, one) => sum + (one.kind === 'let out' ? (one.width?.nm ?? 0) : 0), 0);
    const leftMm = mm(piece.allowance.nm) - already / 1e6;
    if (mm(width.value.nm) > leftMm + 1e-6)
      return this.refuse(
        box,
        `Only ${(leftMm / 10).toFixed(1)}\u202fcm (${(leftMm / 25.4).toFixed(2)}\u202fin) of room is left in this piece.`,
      );
    return width.value;
  }
}
