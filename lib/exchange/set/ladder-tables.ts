import type { Ladder } from '../../ladder/ladder';
import { isLandmarkOf } from '../../ladder/limb';
import type { FiledLadder } from '../../record/patient-file';
import {
  type Cells,
  LADDER_ID,
  ladderIdIn,
  lengthCells,
  type SetPart,
  type SetTable,
  SUBJECT_ID,
  typedColumns,
  VISIT_ID,
  visitIdIn,
} from './set-table';

const RUNG_NO = { name: 'rung', kind: 'whole', says: 'Number of the rung on its ladder, from 1 at the zero.' } as const;

/** Which ladder of which visit a row belongs to. */
function ladderRows(part: SetPart, rowsOf: (ladder: FiledLadder, head: Cells) => readonly Cells[]): readonly Cells[] {
  return part.file.visits.flatMap((visit, place) => {
    const visitId = visitIdIn(part, visit.id);
    return visit.ladders.flatMap((ladder) =>
      rowsOf(ladder, { subject_id: part.subjectId, visit_id: visitId, ladder_id: ladderIdIn(part, place, ladder) }),
    );
  });
}

/** Table `ladder`: how each ladder was set up, beside the figures that stand in the two below. */
export const LADDER: SetTable = {
  name: 'ladder',
  says: 'One row a ladder: the girths of one limb at one visit. Its rungs and landmarks stand in tables of their own.',
  columns: [
    SUBJECT_ID,
    VISIT_ID,
    LADDER_ID,
    { name: 'limb', kind: 'word', says: 'leg or arm.' },
    { name: 'side', kind: 'word', says: 'left or right, the patient’s own.' },
    { name: 'zero_landmark', kind: 'word', says: 'Landmark that distances are counted from.' },
    { name: 'zero_words', kind: 'free-text', says: 'The zero in words where it is no landmark.' },
    { name: 'direction', kind: 'word', says: 'up towards the trunk, or down.' },
    { name: 'unit', kind: 'word', says: 'Unit of the ladder: in or cm.' },
    { name: 'interval_as_typed', kind: 'typed', says: 'Interval the ladder was set up with.' },
    ...typedColumns('floor_to_fold', 'Height of the gluteal fold above the floor'),
    { name: 'zero_choice', kind: 'word', says: 'What was chosen when the zero looked moved: as-recorded or moved-back.' },
    {
      name: 'zero_shift_mm',
      kind: 'decimal',
      unit: 'mm',
      says: 'How far the zero had looked moved towards the trunk when that was chosen.',
    },
    { name: 'zero_choice_by', kind: 'identity', says: 'Who chose.' },
    { name: 'zero_choice_at', kind: 'moment', says: 'When it was chosen.' },
  ],
  rows: (part) =>
    ladderRows(part, (ladder, head) => {
      const isLandmark = isLandmarkOf(ladder.limb, ladder.zero);
      return [
        {
          ...head,
          limb: ladder.limb,
          side: ladder.side,
          zero_landmark: isLandmark ? ladder.zero : '',
          zero_words: isLandmark ? '' : ladder.zero,
          direction: ladder.direction,
          unit: ladder.unit,
          interval_as_typed: ladder.intervalText ?? '',
          ...lengthCells('floor_to_fold', ladder.floorToFold),
          ...zeroChoiceCells(ladder),
        },
      ];
    }),
};

function zeroChoiceCells({ zeroChoice }: Ladder): Cells {
  if (!zeroChoice) return {};
  const { choice, shiftMm, by, at } = zeroChoice;
  return { zero_choice: choice, zero_shift_mm: String(shiftMm), zero_choice_by: by, zero_choice_at: at };
}

/** Table `rung`: distances as typed and exactly, the girth, a second taping, a note. */
export const RUNG: SetTable = {
  name: 'rung',
  says: 'One row a place on a ladder, with its girth where one was measured.',
  columns: [
    SUBJECT_ID,
    VISIT_ID,
    LADDER_ID,
    RUNG_NO,
    ...typedColumns('distance', 'Distance from the zero along the limb'),
    ...typedColumns('girth', 'Girth'),
    ...typedColumns('again', 'Girth measured a second time'),
    { name: 'note', kind: 'free-text', says: 'Note on the rung.' },
  ],
  rows: (part) =>
    ladderRows(part, (ladder, head) =>
      ladder.rungs.map((rung, index) => ({
        ...head,
        rung: String(index + 1),
        ...lengthCells('distance', rung.distance),
        ...lengthCells('girth', rung.girth),
        ...lengthCells('again', rung.again),
        note: rung.note ?? '',
      })),
    ),
};

/** Table `landmark`: where each was found on its ladder’s ruler. */
export const LANDMARK: SetTable = {
  name: 'landmark',
  says: 'One row a landmark that was found on a ladder’s ruler.',
  columns: [
    SUBJECT_ID,
    VISIT_ID,
    LADDER_ID,
    { name: 'landmark', kind: 'word', says: 'The landmark.' },
    ...typedColumns('distance', 'Distance from the zero along the limb'),
  ],
  rows: (part) =>
    ladderRows(part, (ladder, head) =>
      ladder.landmarks.map(({ landmark, distance }) => ({ ...head, landmark, ...lengthCells('distance', distance) })),
    ),
};

/** Questions about a reading that were answered "keep". */
export const KEPT_QUESTION: SetTable = {
  name: 'kept_question',
  says: 'One row a question that was asked about a reading and answered "keep".',
  columns: [
    SUBJECT_ID,
    VISIT_ID,
    LADDER_ID,
    RUNG_NO,
    { name: 'question', kind: 'word', says: 'Which question.' },
    { name: 'kept_by', kind: 'identity', says: 'Who kept the reading.' },
    { name: 'kept_at', kind: 'moment', says: 'When.' },
  ],
  rows: (part) =>
    ladderRows(part, (ladder, head) =>
      ladder.rungs.flatMap((rung, index) =>
        (rung.kept ?? []).map(({ kind, by, at }) => ({ ...head, rung: String(index + 1), question: kind, kept_by: by, kept_at: at })),
      ),
    ),
};
