import { recordOf } from '@/db/patients/records';
import { saveVisit, type TypedVisit } from '@/db/patients/visits';
import { AIMS } from './aims';
import type { Bare } from './bare-statements';
import type { FilledClinic } from './filled-clinic';
import { line, NOTHING, plus, seconds } from './timed';

/** Saves before anything is counted, as a server has made some. */
const WARM = 50;

/** Saves of a two-limb visit through `db/patients/visits`, against the bare durable commit of the same rows by statements made ready before. */
export async function benchSave({ lead, longRecordId, patientIds }: FilledClinic, bare: Bare, saves: number): Promise<void> {
  const visit = (await recordOf(lead, longRecordId))?.visits.at(-1) as TypedVisit | undefined;
  if (!visit) throw new Error('there is no visit to save again');
  const patientId = patientIds.at(-1) ?? '';
  const save = async () => {
    const saved = await saveVisit(lead, { patientId, submissionId: crypto.randomUUID(), visit });
    if (saved.kind !== 'saved') throw new Error(`not saved: ${saved.kind}`);
  };
  for (let turn = 0; turn < WARM; turn++) await save();
  const copy = await copiesOfNewest(bare, patientId);
  let done = 0;
  let whole = NOTHING;
  let floor = NOTHING;
  for (; done < saves; done++) {
    whole = plus(whole, await seconds(save));
    const statements = copy(`-${done}`);
    floor = plus(floor, await seconds(() => bare.commit(statements)));
  }
  line('Save of a two-limb visit', `${saves} saves`, whole, 'the bare durable commit of the same rows', floor, AIMS.save);
}

/** The rows that the newest save left, as inserts under new ids: what refers to them gets the same suffix. */
async function copiesOfNewest(bare: Bare, patientId: string): Promise<(suffix: string) => Parameters<Bare['commit']>[0]> {
  const of = (text: string, id: unknown) => bare.rows(text, [String(id)]);
  const visits = await of('select * from visit where patient_id = $1', patientId);
  const visit = visits.at(-1);
  const revisions = await of('select * from visit_revision where visit_id = $1', visit?.id);
  const ladders = await of('select * from ladder where visit_revision_id = $1', revisions[0]?.id);
  const notes = await of('select * from audit where subject_id = $1', visit?.id);
  const renewed = new Set(['id', 'visit_id', 'visit_revision_id', 'submission_id', 'subject_id']);
  const rows = Object.entries({ visit: [visit ?? {}], visit_revision: revisions, ladder: ladders, audit: notes }).flatMap(
    ([table, found]) =>
      found.map((row) => {
        const names = Object.keys(row).filter((name) => !(table === 'audit' && name === 'number'));
        const text = `insert into ${table} (${names.map((name) => `"${name}"`).join(', ')}) values (${names.map((_, at) => `$${at + 1}`).join(', ')})`;
        return { text, names, row };
      }),
  );
  return (suffix) =>
    rows.map(({ text, names, row }) => ({
      text,
      values: names.map((name) => (renewed.has(name) ? `${row[name]}${suffix}` : stored(row[name]))),
    }));
}

/** A value as a driver takes it back. */
function stored(value: unknown): string | number | null {
  if (value instanceof Date) return value.toISOString();
  if (value !== null && typeof value === 'object') return JSON.stringify(value);
  return value as string | number | null;
}
