import styles from './exchange.module.css';
import { SET_STYLES } from './set-style';

/** The ways one patient's record is taken out, each a file. */
export function TakeOutPanel({ patientId }: { readonly patientId: string }) {
  const address = `/patients/${patientId}/export?as=`;
  return (
    <section className="panel no-print" aria-labelledby="take-out">
      <h2 id="take-out">Take out</h2>
      <details>
        <summary>This record as a file</summary>
        <ul className={`plain-list ${styles.fileLinks}`}>
          <li>
            <a href={`${address}ladders`} download>
              Its ladders alone, a row a measured place
            </a>
          </li>
          <li>
            <a href={`${address}fhir`} download>
              For another clinical program, as a FHIR bundle
            </a>
          </li>
          <li>
            <a href={`${address}fhir-transaction`} download>
              For a FHIR server, as a transaction: sent again it updates and doubles nothing
            </a>
          </li>
          <li>
            <a href={`${address}workbook`} download>
              As a workbook (.xlsx), every cell as text: a spreadsheet program changes nothing in it
            </a>
          </li>
          {Object.entries(SET_STYLES).map(([name, { words }]) => (
            <li key={name}>
              <a href={`${address}${name}`} download>
                {words}
              </a>
            </li>
          ))}
        </ul>
        <p className="secondary small">The clinic’s history says who took it. From then on it is yours to guard.</p>
      </details>
    </section>
  );
}
