import { asChoices, typedBoxes } from '@/app/_form/typed-boxes';
import type { LostPoints } from '@/lib/exchange/spreadsheet/lost-points';
import type { Mapping, Role } from '@/lib/exchange/spreadsheet/mapping';
import { columnName } from '@/lib/exchange/spreadsheet/spreadsheet-row';
import type { TextTable } from '@/lib/exchange/spreadsheet/text-table';
import { LIMBS, placeInWords } from '@/lib/ladder/limb';
import { DIAGNOSIS_GROUPS } from '@/lib/record/diagnosis-groups';
import styles from './exchange.module.css';

/** What is asked when an answer is missing, by its name. */
const ASKED: Readonly<Partial<Record<keyof Mapping, string>>> = {
  dayOrder: 'The days can be read in more than one way. Choose the order.',
  lastYear: 'Years are written with two figures. Say once which century is meant.',
  unit: 'Inches or centimetres? The table does not say. Nothing is read until you choose.',
  heightUnit: 'A height names no unit. Say which it is.',
  weightUnit: 'A weight names no unit: kilograms or pounds?',
  reference: 'Whose ladders are these? The table does not say.',
  born: 'The table does not say when the patient was born.',
  sex: 'The table does not say which growth table to read.',
  limb: 'Leg or arm? The table does not say.',
  zero: 'Where do the distances begin?',
  roles: 'Say which columns hold days and which hold places or visits.',
};

/** What is said of how a spreadsheet is to be read: what the table says itself is filled in, what it does not say is asked. */
export function MappingForm({
  importId,
  table,
  mapping,
  missing,
  lost,
  thisYear,
  save,
}: {
  readonly importId: string;
  readonly table: TextTable;
  readonly mapping: Mapping;
  readonly missing: readonly (keyof Mapping)[];
  readonly lost: LostPoints | undefined;
  readonly thisYear: number;
  readonly save: (form: FormData) => Promise<void>;
}) {
  const isLandmark = ZEROS.some(({ key }) => key === mapping.zero);
  const typed = {
    ...mapping,
    dayOrder: mapping.dayOrder ?? '',
    lastYear: mapping.lastYear === null ? '' : String(mapping.lastYear),
    zero: isLandmark ? mapping.zero : '',
    zeroWords: isLandmark ? '' : mapping.zero,
  };
  const { text, choice } = typedBoxes(
    typed as unknown as Record<string, string>,
    Object.fromEntries(missing.map((one) => [one, ASKED[one] ?? 'Answer this.'])),
  );
  return (
    <form className="panel form" action={save}>
      <h2>How the table is to be read</h2>
      <input type="hidden" name="import" value={importId} />
      <div className="two-columns">
        {choice('layout', 'Layout', LAYOUTS, null)}
        {choice('dayOrder', 'Days are written', ORDERS, 'choose')}
        {(missing.includes('lastYear') || mapping.lastYear !== null) &&
          choice('lastYear', 'Years of two figures', centuries(thisYear), 'choose')}
        {(lost || mapping.figures === 'thousandths') &&
          choice(
            'figures',
            lost ? `${lost.lost} figures stand a thousandfold, as ${lost.example}` : 'Figures that lost their point',
            FIGURES,
            null,
          )}
      </div>
      <div className="four-columns">
        {choice('unit', 'Girths and distances are in', UNITS, 'choose')}
        {choice('limb', 'Limb', asChoices(['leg', 'arm']), 'choose')}
        {choice('zero', 'Distances begin at', ZEROS, 'another place')}
        {text('zeroWords', 'Another place, in words')}
        {choice('side', 'Side', asChoices(['left', 'right']), 'said in the table')}
        {choice('affected', 'Affected limbs', AFFECTED, null)}
      </div>
      <div className="four-columns">
        {text('reference', 'Reference of the patient', 'Where the table names none.')}
        {text('born', 'Born', 'Where the table does not say; year-month-day.')}
        {choice('sex', 'Growth table', SEXES, 'said in the table')}
        {choice('diagnosisGroup', 'Diagnosis group', asChoices(DIAGNOSIS_GROUPS), null)}
        {choice('heightUnit', 'Heights without a unit', UNITS, 'choose, where needed')}
        {choice('weightUnit', 'Weights without a unit', MASSES, 'choose, where needed')}
      </div>
      {mapping.layout !== 'rungs' && (
        <Columns table={table} mapping={mapping} refusal={missing.includes('roles') ? ASKED.roles : undefined} />
      )}
      <div className="actions">
        <button type="submit" className="button main">
          Read it so
        </button>
      </div>
    </form>
  );
}

function Columns({
  table,
  mapping,
  refusal,
}: {
  readonly table: TextTable;
  readonly mapping: Mapping;
  readonly refusal: string | undefined;
}) {
  const [header, ...rows] = table.rows;
  const roles = mapping.layout === 'places-down' ? CHART_ROLES : mapping.layout === 'long' ? LONG_ROLES : TABLE_ROLES;
  const columns = mapping.roles.map((role, index) => ({ role, index, letter: columnName(index, ''), heading: header?.cells[index] ?? '' }));
  return (
    <div className="scroll-across">
      <table className={styles.asRead}>
        <caption>The first rows, and what each column holds{refusal ? `. ${refusal}` : ''}</caption>
        <thead>
          <tr>
            {columns.map(({ role, index, letter, heading }) => (
              <th key={letter} scope="col">
                <label>
                  <span>{heading || letter}</span>
                  <select name={`role-${index}`} key={role} defaultValue={role}>
                    {roles.map((one) => (
                      <option key={one} value={one}>
                        {ROLE_WORDS[one]}
                      </option>
                    ))}
                  </select>
                </label>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.slice(0, 5).map((row) => (
            <tr key={row.line}>
              {columns.map(({ index, letter }) => (
                <td key={letter}>{row.cells[index]}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

const LAYOUTS = [
  { key: 'places-down', words: 'a column a visit, places down the side' },
  { key: 'visits-down', words: 'a row a visit, places across' },
  { key: 'long', words: 'a row a measured place, headings of its own' },
  { key: 'rungs', words: 'a row a measured place (ladders file)' },
];
const ORDERS = [
  { key: 'ymd', words: 'year, month, day' },
  { key: 'dmy', words: 'day, month, year' },
  { key: 'mdy', words: 'month, day, year' },
];
const FIGURES = [
  { key: 'as-written', words: 'as they are written' },
  { key: 'thousandths', words: 'with the point put back before the last three' },
];
const centuries = (thisYear: number) => [
  { key: String(thisYear), words: `up to this one: ${String(thisYear).slice(2)} is ${thisYear}, the next is ${thisYear - 99}` },
  { key: '2099', words: '2000 to 2099' },
  { key: '1999', words: '1900 to 1999' },
];
const UNITS = [
  { key: 'in', words: 'inches' },
  { key: 'cm', words: 'centimetres' },
];
const MASSES = [
  { key: 'kg', words: 'kilograms' },
  { key: 'lb', words: 'pounds' },
];
const AFFECTED = [
  { key: 'both', words: 'both sides' },
  { key: 'left', words: 'the left' },
  { key: 'right', words: 'the right' },
  { key: 'neither', words: 'neither' },
];
const SEXES = [
  { key: 'F', words: 'girls’ and women’s' },
  { key: 'M', words: 'boys’ and men’s' },
  { key: 'X', words: 'no table' },
];
const ZEROS = Object.values(LIMBS).flatMap(({ landmarks }) => landmarks.map((key) => ({ key: key as string, words: placeInWords(key) })));

const ROLE_WORDS: Readonly<Record<Role, string>> = {
  ignore: 'leave out',
  reference: 'reference',
  born: 'born',
  sex: 'sex',
  day: 'day of the visit',
  time: 'time',
  limb: 'limb',
  side: 'side',
  height: 'height',
  weight: 'weight',
  posture: 'posture',
  measurer: 'who measured',
  note: 'note',
  place: 'place',
  visit: 'a visit',
  distance: 'distance',
  girth: 'girth',
  unit: 'unit',
  landmark: 'landmark',
};
const CHART_ROLES: readonly Role[] = ['place', 'visit', 'ignore'];
const LONG_ONLY: readonly Role[] = ['distance', 'girth', 'unit', 'landmark'];
const TABLE_ROLES = (Object.keys(ROLE_WORDS) as Role[]).filter((role) => role !== 'visit' && !LONG_ONLY.includes(role));
const LONG_ROLES = (Object.keys(ROLE_WORDS) as Role[]).filter((role) => role !== 'visit' && role !== 'place');
