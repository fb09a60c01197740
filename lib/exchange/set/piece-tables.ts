import type { CoverEnd } from '../../record/patient-record';
import { type Cells, type Column, lengthCells, type SetTable, SUBJECT_ID, typedColumns, VISIT_ID, visitIdIn } from './set-table';

/** The columns of one end of what a piece covers: a landmark, or a distance on the ladder it was cut from. */
function coverColumns(end: 'from' | 'to'): readonly Column[] {
  return [
    {
      name: `covers_${end}_landmark`,
      kind: 'word',
      says: `Landmark the piece reaches ${end}.${end === 'from' ? ' Or measures: made to named measures alone, it has no ladder.' : ''}`,
    },
    ...typedColumns(`covers_${end}`, `Distance on the ladder it was made to that the piece reaches ${end}`),
  ];
}

function coverCells(end: 'from' | 'to', cover: CoverEnd): Cells {
  return typeof cover === 'string' ? { [`covers_${end}_landmark`]: cover } : lengthCells(`covers_${end}`, cover);
}

/** A part of a piece or an order that has a shape of its own, as JSON; nothing for null. */
function jsonCell(value: unknown): string {
  return value === null || value === undefined ? '' : JSON.stringify(value);
}

/** Table `piece`: plain columns for analysis, and what has parts of its own as JSON, so that it comes back whole. */
export const PIECE: SetTable = {
  name: 'piece',
  says: 'One row a garment. Two of one order are two pieces.',
  columns: [
    SUBJECT_ID,
    { name: 'piece_id', kind: 'id', says: 'The piece.' },
    { name: 'piece', kind: 'identity', says: 'What the clinic calls the piece.' },
    { name: 'limb', kind: 'word', says: 'leg or arm; trunk or head where named measures alone make it.' },
    { name: 'side', kind: 'word', says: 'left or right, the patient’s own; middle for trunk and head.' },
    ...coverColumns('from'),
    ...coverColumns('to'),
    { ...VISIT_ID, name: 'cut_from_visit_id', says: 'The visit whose figures it was made to, where that is known.' },
    { name: 'cut_from', kind: 'day', says: 'Day of the figures it was made to.' },
    { name: 'reduction_pct', kind: 'decimal', unit: '%', says: 'Reduction of the girth.' },
    { name: 'convention', kind: 'word', says: 'How the relaxed girth G follows from the girth C and the reduction r: C(1-r) or C/(1+r).' },
    ...typedColumns('allowance', 'Total width that can be let out'),
    { name: 'life_days', kind: 'whole', unit: 'd', says: 'Days of wear it is meant to last.' },
    { name: 'lead_days', kind: 'whole', unit: 'd', says: 'Days from order to delivery.' },
    { name: 'order', kind: 'whole', says: 'Number of the order it came from.' },
    { name: 'garment_form', kind: 'word', says: 'Form of the garment.' },
    { name: 'expected', kind: 'day', says: 'Day it was expected.' },
    { name: 'delivered', kind: 'day', says: 'Day it came.' },
    { name: 'first_fit', kind: 'day', says: 'Day of the first-fit check.' },
    { name: 'first_fit_outcome', kind: 'word', says: 'keep, alter or remake.' },
    { name: 'first_worn', kind: 'day', says: 'Day it was first worn.' },
    { name: 'retired', kind: 'day', says: 'Day it went out of use.' },
    { name: 'retired_as', kind: 'word', says: 'Why it went out of use.' },
    { name: 'retired_reason', kind: 'free-text', says: 'The same in words.' },
    { name: 'garment', kind: 'json', says: 'Form, use, class and options.' },
    { name: 'fit', kind: 'json', says: 'First-fit check, by zone.' },
    { name: 'wear_in', kind: 'json', says: 'Hours built up and the early call.' },
    { name: 'kept_as', kind: 'json', says: 'In turn or as a spare, from which day.' },
    { name: 'alterations', kind: 'json', says: 'What was let out or altered.' },
  ],
  rows: (part) =>
    part.file.pieces.map((piece, index) => ({
      subject_id: part.subjectId,
      piece_id: `${part.subjectId}-p${index + 1}`,
      piece: piece.piece,
      limb: piece.limb,
      side: piece.side,
      ...(piece.covers === 'measures'
        ? { covers_from_landmark: 'measures' }
        : { ...coverCells('from', piece.covers.from), ...coverCells('to', piece.covers.to) }),
      cut_from_visit_id: visitIdIn(part, piece.cutFromVisitId),
      cut_from: piece.cutFrom,
      reduction_pct: String(piece.reductionPct),
      convention: piece.convention,
      ...lengthCells('allowance', piece.allowance),
      life_days: String(piece.lifeDays),
      lead_days: String(piece.leadDays),
      order: piece.order === null ? '' : String(piece.order),
      garment_form: piece.garment?.form ?? '',
      expected: piece.expected ?? '',
      delivered: piece.delivered ?? '',
      first_fit: piece.firstFit ?? '',
      first_fit_outcome: piece.fit?.outcome ?? '',
      first_worn: piece.firstWorn ?? '',
      retired: piece.retired ?? '',
      retired_as: piece.retiredAs ?? '',
      retired_reason: piece.retiredReason ?? '',
      garment: jsonCell(piece.garment),
      fit: jsonCell(piece.fit),
      wear_in: jsonCell(piece.wearIn),
      kept_as: jsonCell(piece.kept),
      alterations: jsonCell(piece.alterations),
    })),
};

/** Table `order`: the state each stands in, its frozen figures inside. */
export const ORDER: SetTable = {
  name: 'order',
  says: 'One row an order, as it stands now, with the figures it was sent with inside.',
  columns: [
    SUBJECT_ID,
    { name: 'order', kind: 'whole', says: 'Number of the order among the patient’s orders.' },
    { name: 'state', kind: 'word', says: 'proposed, ordered or cancelled.' },
    { name: 'reason', kind: 'word', says: 'Why it was ordered.' },
    { name: 'quantity', kind: 'whole', says: 'How many like pieces.' },
    { name: 'ordered', kind: 'day', says: 'Day it was sent.' },
    { name: 'expected', kind: 'day', says: 'Day it was expected.' },
    { ...VISIT_ID, name: 'cut_from_visit_id', says: 'The visit whose figures it is made to.' },
    { name: 'content', kind: 'json', says: 'The whole order.' },
  ],
  rows: (part) =>
    part.file.orders.map(({ cutFromVisitId, ...order }) => ({
      subject_id: part.subjectId,
      order: String(order.order),
      state: order.state,
      reason: order.reasonCode,
      quantity: String(order.quantity),
      ordered: order.ordered ?? '',
      expected: order.expected ?? '',
      cut_from_visit_id: visitIdIn(part, cutFromVisitId),
      content: jsonCell(order),
    })),
};

/** Events after which a limb is no longer the same series. */
export const EVENT: SetTable = {
  name: 'event',
  says: 'One row an event after which trends start anew.',
  columns: [
    SUBJECT_ID,
    { name: 'day', kind: 'day', says: 'Day of the event.' },
    { name: 'event', kind: 'word', says: 'operation, infection, therapy or other.' },
    { name: 'words', kind: 'free-text', says: 'The same in words.' },
  ],
  rows: ({ subjectId, file }) => file.events.map(({ day, kind, words }) => ({ subject_id: subjectId, day, event: kind, words })),
};

/** Phases of the course of care. */
export const PHASE: SetTable = {
  name: 'phase',
  says: 'One row a phase of the course of care, as it stands after all corrections.',
  columns: [
    SUBJECT_ID,
    { name: 'kind', kind: 'word', says: 'getting-ready, reduction, interim-garment, garments, stepping-down, on-hold or ended.' },
    { name: 'from', kind: 'day', says: 'Its first day.' },
    { name: 'until', kind: 'day', says: 'Its last day; empty where it lasts until the next begins.' },
    { name: 'baseline_day', kind: 'day', says: 'Day of the visit that its verdicts compare with, where one was chosen.' },
    { name: 'ask_on', kind: 'day', says: 'Day to ask again, on hold or after the end.' },
    { name: 'ended_as', kind: 'word', says: 'How the course ended: discharged, transferred, died or lost-to-follow-up.' },
    { name: 'note', kind: 'free-text', says: 'Why, in the clinic’s words.' },
  ],
  rows: ({ subjectId, file }) =>
    file.phases.map(({ kind, from, until, baselineDay, askOn, endedAs, note }) => ({
      subject_id: subjectId,
      kind,
      from,
      until: until ?? '',
      baseline_day: baselineDay ?? '',
      ask_on: askOn ?? '',
      ended_as: endedAs ?? '',
      note: note ?? '',
    })),
};

/** Answers to caution cards. */
export const CAUTION: SetTable = {
  name: 'caution',
  says: 'One row a caution card: its latest answer.',
  columns: [
    SUBJECT_ID,
    { name: 'card', kind: 'word', says: 'The card.' },
    { name: 'card_version', kind: 'word', says: 'Version of its words.' },
    { name: 'answer', kind: 'word', says: 'present, absent or not-known.' },
    { name: 'day', kind: 'day', says: 'Day it was answered.' },
    { name: 'words', kind: 'free-text', says: 'What was written beside it.' },
    { name: 'wording', kind: 'free-text', says: 'The words it was asked in.' },
    { name: 'figures', kind: 'json', says: 'Figures it was answered with and the limits that stood on it.' },
  ],
  rows: ({ subjectId, file }) =>
    file.cautions.map((caution) => ({
      subject_id: subjectId,
      card: caution.card,
      card_version: caution.cardVersion,
      answer: caution.answer,
      day: caution.day,
      words: caution.words ?? '',
      wording: caution.wording,
      figures: jsonCell(caution.figures),
    })),
};
