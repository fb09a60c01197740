import type { Metadata } from 'next';
import { requireRole } from '@/app/_auth/therapist';
import styles from '@/app/_exchange/exchange.module.css';
import { IMPORT_STATES } from '@/app/_exchange/import-words';
import { saidOfFile } from '@/app/_exchange/said-of-file';
import { SET_STYLES } from '@/app/_exchange/set-style';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { dayAndTime } from '@/app/_shell/day-and-time';
import { ClinicTitle } from '@/app/clinic/clinic-title';
import { clinicOf } from '@/db/clinic/clinic';
import { patientCount } from '@/db/exchange/patient-files';
import { importsOf } from '@/db/exchange/read-imports';

export const metadata: Metadata = { title: 'Bring in, take out' };

/** What comes in from spreadsheets and other programs, and what goes out to them. */
export default async function ExchangePage({ searchParams }: { searchParams: Promise<{ refused?: string }> }) {
  const therapist = await requireRole('lead');
  const { refused } = await searchParams;
  const said = refused === undefined ? [] : await saidOfFile();
  const [imports, patients, { timeZone }] = [await importsOf(therapist), await patientCount(therapist), await clinicOf(therapist)];
  const clock = dayAndTime(timeZone);
  return (
    <main id="main">
      <ClinicTitle title="Bring in, take out">
        <p className="secondary">Years of ladders stand in spreadsheets; other programs must be able to read ours.</p>
      </ClinicTitle>
      <div className="halves">
        <section className="panel form" aria-labelledby="bring-in">
          <h2 id="bring-in">Bring in</h2>
          {refused !== undefined && (
            <p className="refused-box" role="alert">
              {said.join(' ') || 'The file was not taken. Choose it again.'}
            </p>
          )}
          <form className="form" method="post" action="/clinic/exchange/upload" encType="multipart/form-data">
            <div className="field">
              <label htmlFor="file">A file</label>
              <span className="hint" id="file-hint">
                A spreadsheet (.xlsx or CSV), with a column a visit, a row a visit or a row a measured place; a set taken out of this
                program; or a FHIR bundle. At most 32 MB.
              </span>
              <input
                id="file"
                name="file"
                type="file"
                accept=".csv,.txt,.tsv,.xlsx,.zip,.json,.ndjson"
                aria-describedby="file-hint"
                required
              />
            </div>
            <div className="field">
              <label htmlFor="sheet">Sheet, where a workbook has several</label>
              <input id="sheet" name="sheet" type="text" maxLength={80} autoComplete="off" />
            </div>
            <p className="secondary small">You see how each figure was read before anything enters a record.</p>
            <div className="actions">
              <button type="submit" className="button main">
                Look at the file
              </button>
            </div>
          </form>
        </section>
        <section className="panel" aria-labelledby="take-out">
          <h2 id="take-out">Take out the clinic</h2>
          <p>
            {patients} {patients === 1 ? 'patient' : 'patients'} as tables, packed in one file with a data dictionary. One patient is taken
            out from their own page, also as a FHIR bundle.
          </p>
          <ul className={`plain-list ${styles.fileLinks}`}>
            <li>
              <a href="/clinic/exchange/file?as=workbook" download>
                As a workbook (.xlsx), every cell as text
              </a>
            </li>
            {Object.entries(SET_STYLES).map(([name, { words }]) => (
              <li key={name}>
                <a href={`/clinic/exchange/file?as=${name}`} download>
                  {words}
                </a>
              </li>
            ))}
          </ul>
          <p className="secondary small">
            A file taken out holds what patients entrusted to the clinic. The clinic’s history says who took it; from then on it is yours to
            guard.
          </p>
        </section>
      </div>
      <h2 className="section-head">
        Files brought in <span className="count">{imports.length}</span>
      </h2>
      {imports.length === 0 && <p className="nothing-yet">None yet.</p>}
      {imports.length > 0 && (
        <table className="worklist">
          <thead>
            <tr>
              <ColumnHeads of={['File', 'Where it stands', 'Who and when']} />
            </tr>
          </thead>
          <tbody>
            {imports.map((one) => (
              <tr key={one.id}>
                <th scope="row">
                  <a href={`/clinic/exchange/${one.id}`} data-soft="">
                    {one.fileName || 'file without a name'}
                  </a>
                </th>
                <td>{IMPORT_STATES[one.state]}</td>
                <td className="whole-row">
                  {one.byName ?? 'unknown'}, {clock.format(one.at)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </main>
  );
}
