import { REVOKED } from '../patients/revoked';
import type { Database } from '../sql/database';
import { runSql } from '../sql/run-sql';
import type { Finding } from './check-schema';

/** Each thing that is revised: its head, its revisions, and what the head repeats of the newest one. */
const REVISED = [
  {
    what: 'patient',
    head: 'patient',
    revisions: 'patient_revision',
    owner: 'patient_id',
    repeats: 'lower(r.reference) <> h.reference_key',
  },
  { what: 'visit', head: 'visit', revisions: 'visit_revision', owner: 'visit_id', repeats: 'r.day <> h.day' },
  { what: 'piece', head: 'piece', revisions: 'piece_revision', owner: 'piece_id', repeats: 'r.label <> h.label' },
  { what: 'order', head: 'garment_order', revisions: 'order_revision', owner: 'order_id', repeats: '1 = 0' },
] as const;

type Ids = { readonly id: string };

/** Checks that revisions have no gap, that each head points to its newest one, and that no visit is half there. */
export async function checkRecords(database: Database): Promise<readonly Finding[]> {
  return [
    ...(await Promise.all(REVISED.map((one) => checkRevised(database, one)))),
    await checkLadders(database),
    await checkErased(database),
  ];
}

async function checkRevised(database: Database, { what, head, revisions, owner, repeats }: (typeof REVISED)[number]): Promise<Finding> {
  const [total] = await runSql<{ heads: number | string; revisions: number | string }>(
    database,
    `select (select count(*) from ${head}) as heads, (select count(*) from ${revisions}) as revisions`,
  );
  const kept = what === 'patient' ? 'h.id not in (select patient_id from erasure)' : '1 = 1';
  const gaps = await runSql<Ids>(
    database,
    `select h.id from ${head} h left join ${revisions} r on r.${owner} = h.id where ${kept}
     group by h.id, h.revision having count(r.id) = 0 or min(r.number) <> 1 or max(r.number) <> count(r.id)
     or (h.revision <> ${REVOKED} and h.revision <> max(r.number))`,
  );
  const other = await runSql<Ids>(
    database,
    `select h.id from ${head} h join ${revisions} r on r.${owner} = h.id and r.number = h.revision where ${repeats}`,
  );
  return {
    looked: `${counted(total?.heads, what)} with ${counted(total?.revisions, 'revision')}: no gap, the newest one counts.`,
    problems: [
      ...gaps.map(({ id }) => `The ${what} ${id} has a gap in its revisions, or its newest one does not count.`),
      ...other.map(({ id }) => `The ${what} ${id} says something else than its newest revision.`),
    ],
  };
}

async function checkLadders(database: Database): Promise<Finding> {
  const [total] = await runSql<{ ladders: number | string }>(database, 'select count(*) as ladders from ladder');
  const gaps = await runSql<Ids>(
    database,
    'select visit_revision_id as id from ladder group by visit_revision_id having max(position) + 1 <> count(*) or min(position) <> 0',
  );
  return {
    looked: `${counted(total?.ladders, 'ladder')}, each in its place.`,
    problems: gaps.map(({ id }) => `The visit of revision ${id} lacks a ladder.`),
  };
}

async function checkErased(database: Database): Promise<Finding> {
  const [total] = await runSql<{ erased: number | string }>(database, 'select count(distinct patient_id) as erased from erasure');
  const left = await runSql<Ids>(
    database,
    `select distinct e.patient_id as id from erasure e where exists (select 1 from patient_revision where patient_id = e.patient_id)
     or exists (select 1 from visit where patient_id = e.patient_id)`,
  );
  return {
    looked: `${counted(total?.erased, 'erased patient')}, nothing of them left.`,
    problems: left.map(({ id }) => `The patient ${id} was erased, but content of theirs is still there.`),
  };
}

function counted(count: number | string | undefined, what: string): string {
  return `${count ?? 0} ${what}${Number(count) === 1 ? '' : 's'}`;
}
