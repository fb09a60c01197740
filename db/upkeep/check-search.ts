import { engine } from '../sql/columns';
import type { Database } from '../sql/database';
import { runSql } from '../sql/run-sql';
import { SEARCH_PART } from '../sql/search-part';
import type { Finding } from './check-schema';

/** Patients that are named one by one. */
const MOST_SAID = 5;

/** Each place of a reference and name, as rows `at.n` counted from one, in the words of the engine. */
const PLACES =
  engine === 'sqlite'
    ? "(select p.*, key + 1 as n from patient p, json_each('[0' || replace(hex(zeroblob(length(p.search_text) - 1)), '00', ',0') || ']'))"
    : '(select p.*, n from patient p, generate_series(1, length(p.search_text)) n)';

/** Parts that search needs and does not have: sixteen characters from each one but a blank on. */
const LOST = `select distinct a.clinic_id, substr(a.search_text, a.n, 16) as part, a.id as patient_id from ${PLACES} a
  where substr(a.search_text, a.n, 1) not in ('', ' ') and not exists (select 1 from ${SEARCH_PART} k
    where k.clinic_id = a.clinic_id and k.part = substr(a.search_text, a.n, 16) and k.patient_id = a.id)`;

/** The text of a patient as parts are compared with it: by code points, as the parts are. */
const TEXT = engine === 'sqlite' ? 'p.search_text' : '(p.search_text collate "C")';
const HOLDS = engine === 'sqlite' ? `instr(${TEXT}, k.part) > 0` : `strpos(${TEXT}, k.part) > 0`;
const ENDS_WITH = `substr(${TEXT}, length(p.search_text) - length(k.part) + 1) = k.part`;

/** Whether a row `k` is no part of its patient: the text does not hold it, or it is short and not its end, or it begins with a blank. */
const IS_FOREIGN = `(k.part = '' or substr(k.part, 1, 1) = ' ' or length(k.part) > 16 or not exists (select 1 from patient p
  where p.id = k.patient_id and p.clinic_id = k.clinic_id and ${HOLDS} and (length(k.part) = 16 or ${ENDS_WITH})))`;

type Part = { readonly patient_id: string };

/** Compares what search looks through with references and names: nothing is lacking, nothing is of another text. */
export async function checkSearch(database: Database): Promise<Finding> {
  const [kept] = await runSql<{ parts: number | string }>(database, `select count(*) as parts from ${SEARCH_PART}`);
  const lost = await runSql<Part>(database, LOST);
  const foreign = await runSql<Part>(database, `select k.patient_id from ${SEARCH_PART} k where ${IS_FOREIGN}`);
  return {
    looked: `${kept?.parts ?? 0} parts that search looks through were compared with references and names.`,
    problems: [
      ...said(lost, 'Search lacks', 'and does not find them by it'),
      ...said(foreign, 'Search holds', 'that their reference and name do not have'),
    ],
  };
}

/** Fills in what search lacks and takes away what no reference or name has; how many parts were put right. */
export async function mendSearch(database: Database): Promise<number> {
  const gone = await runSql<Part>(database, `delete from ${SEARCH_PART} as k where ${IS_FOREIGN} returning patient_id`);
  const conflict = engine === 'sqlite' ? 'insert or ignore' : 'insert';
  const end = engine === 'sqlite' ? '' : ' on conflict do nothing';
  const filled = await runSql<Part>(
    database,
    `${conflict} into ${SEARCH_PART} (clinic_id, part, patient_id) ${LOST}${end} returning patient_id`,
  );
  return gone.length + filled.length;
}

function said(parts: readonly Part[], what: string, so: string): readonly string[] {
  if (parts.length === 0) return [];
  const patients = [...new Set(parts.map((one) => one.patient_id))];
  const named = patients.slice(0, MOST_SAID).join(', ');
  const more = patients.length > MOST_SAID ? ` and ${patients.length - MOST_SAID} more` : '';
  const count = parts.length === 1 ? 'one part' : `${parts.length} parts`;
  return [`${what} ${count} of the patients ${named}${more} ${so}: “npm run renew” puts it right.`];
}
