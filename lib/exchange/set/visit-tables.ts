import { limbInWords } from '../../ladder/limb';
import type { Visit } from '../../record/patient-record';
import { lengthCells, massCells, type SetTable, SUBJECT_ID, typedColumns, VISIT_ID, visitIdIn } from './set-table';

/** Table `subject`: who it is and which limbs are affected; names and days are left out for research. */
export const SUBJECT: SetTable = {
  name: 'subject',
  says: 'One row a patient.',
  columns: [
    SUBJECT_ID,
    { name: 'reference', kind: 'identity', says: 'The clinic’s own reference.' },
    { name: 'name', kind: 'identity', says: 'Name.' },
    { name: 'born', kind: 'identity', says: 'Day of birth, YYYY-MM-DD.' },
    { name: 'sex', kind: 'word', says: 'Sex as growth tables use it: F, M or X.' },
    { name: 'diagnosis_group', kind: 'word', says: 'Why garments are worn, in the clinic’s broad groups.' },
    { name: 'affected', kind: 'word', says: 'Affected limbs, and hands, feet, trunk or head, joined by "; ".' },
    { name: 'language', kind: 'word', says: 'Language of the family page.' },
    { name: 'note', kind: 'free-text', says: 'Note on the patient.' },
  ],
  rows: ({ subjectId, file: { details } }) => [
    {
      subject_id: subjectId,
      reference: details.reference,
      name: details.name ?? '',
      born: details.born,
      sex: details.sex,
      diagnosis_group: details.diagnosisGroup,
      affected: [
        ...details.affected.map(({ limb, side }) => limbInWords(limb, side)),
        ...(details.affectedParts ?? []).map(({ part, side }) => `${side} ${part}`),
      ].join('; '),
      language: details.language,
      note: details.note ?? '',
    },
  ],
};

/** Table `visit`: day, hour, posture and measurer, as after all corrections. */
export const VISIT: SetTable = {
  name: 'visit',
  says: 'One row a visit, as it stands after all corrections.',
  columns: [
    SUBJECT_ID,
    VISIT_ID,
    { name: 'day', kind: 'day', says: 'Day of the visit.' },
    { name: 'time', kind: 'word', tellsWhen: true, says: 'Clock time HH:MM as written.' },
    { name: 'posture', kind: 'free-text', says: 'Posture while measuring.' },
    { name: 'measurer', kind: 'identity', says: 'Who measured.' },
    { name: 'note', kind: 'free-text', says: 'Note on the visit.' },
    { name: 'occasion', kind: 'word', says: 'Why the same limb was measured twice that day: second-measuring or after-treatment.' },
  ],
  rows: (part) =>
    part.file.visits.map((visit) => ({
      subject_id: part.subjectId,
      visit_id: visitIdIn(part, visit.id),
      day: visit.day,
      time: visit.time ?? '',
      posture: visit.posture ?? '',
      measurer: visit.measurer ?? '',
      note: visit.note ?? '',
      occasion: visit.occasion ?? '',
    })),
};

/** Height, weight and single readings of a visit. */
export const BODY_MEASURE: SetTable = {
  name: 'body_measure',
  says: 'One row a figure of the body off the ladders: height, weight, or a single reading with a name.',
  columns: [
    SUBJECT_ID,
    VISIT_ID,
    { name: 'measure', kind: 'word', says: 'height, weight or reading.' },
    { name: 'reading_name', kind: 'free-text', says: 'Name of a single reading.' },
    ...typedColumns('length', 'The length'),
    ...typedColumns('weight', 'The weight', 'kg'),
    { name: 'kept_by', kind: 'identity', says: 'Who kept a height or weight that looked odd.' },
    { name: 'kept_at', kind: 'moment', says: 'When.' },
  ],
  rows: (part) =>
    part.file.visits.flatMap((visit) => {
      const head = { subject_id: part.subjectId, visit_id: visitIdIn(part, visit.id) };
      return [
        ...(visit.height ? [{ ...head, measure: 'height', ...lengthCells('length', visit.height), ...keptCells(visit, 'height') }] : []),
        ...(visit.weight ? [{ ...head, measure: 'weight', ...massCells('weight', visit.weight), ...keptCells(visit, 'weight') }] : []),
        ...(visit.readings ?? []).map(({ name, length }) => ({
          ...head,
          measure: 'reading',
          reading_name: name,
          ...lengthCells('length', length),
        })),
      ];
    }),
};

function keptCells(visit: Visit, measure: 'height' | 'weight'): Record<string, string> {
  const kept = visit.keptBody?.find(({ kind }) => kind === measure);
  return kept ? { kept_by: kept.by, kept_at: kept.at } : {};
}
