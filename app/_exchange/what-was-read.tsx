import { ColumnHeads } from '@/app/_shell/column-heads';
import { showDay } from '@/lib/units/calendar-day';
import { counted } from './counted';
import { type IncomingLook, MOST_DOUBTS } from './incoming-jobs';

/** So many questions stand open to be read before anything is brought in. */
const OPEN_UP_TO = 20;

/** What could be read of a file: how much, each bad cell with its reason, and the questions that the sheet would have asked. */
export function WhatWasRead({ read, reportAt }: { readonly read: IncomingLook; readonly reportAt: string }) {
  const { patients, visits, girths, faults, doubts } = read;
  return (
    <section className="panel" aria-labelledby="what-was-read">
      <h2 id="what-was-read">What was read</h2>
      <p>{`${counted(patients, 'patient')}, ${counted(visits, 'visit')}, ${counted(girths, 'girth')}.`}</p>
      {read.leftOut && read.leftOut.length > 0 && (
        <p>{`${counted(read.leftOut.length, 'column')} left out: ${read.leftOut.join(', ')}.`}</p>
      )}
      {read.said && read.said.length > 0 && (
        <ul>
          {read.said.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
      {faults.cells > 0 && (
        <details open={patients === 0}>
          <summary>{`${counted(faults.cells, 'cell')} could not be read. A patient with such a cell is left out whole.`}</summary>
          <p className="secondary">Mend the cell in the file and look at the file again, or leave its column out above.</p>
          <table className="worklist">
            <thead>
              <tr>
                <ColumnHeads of={['Line', 'Column', 'Why']} />
              </tr>
            </thead>
            <tbody>
              {faults.shown.map(({ first: { file, line, column, reason }, cells }) => (
                <tr key={`${file}-${line}-${column}-${reason}`}>
                  <th scope="row">{file ? `${file}, ${line}` : line}</th>
                  <td>{column}</td>
                  <td className="whole-row">{cells > 1 ? `${reason} And ${cells - 1} more of this column.` : reason}</td>
                </tr>
              ))}
            </tbody>
          </table>
          {faults.shown.length < faults.cells && (
            <p>
              <a href={reportAt} download>
                Every one of them as a file
              </a>
            </p>
          )}
        </details>
      )}
      {doubts.length > 0 && (
        <details open={doubts.length <= OPEN_UP_TO}>
          <summary>{`${doubts.length === MOST_DOUBTS ? 'At least ' : ''}${counted(doubts.length, 'reading')} would have been asked about.`}</summary>
          <p className="secondary">They come in as they were written, and the questions stay open on each visit’s own page.</p>
          <ul>
            {doubts.map(({ reference, day, limb, message }) => (
              <li key={`${reference}-${day}-${limb}-${message}`}>{`${reference}, ${showDay(day)}, ${limb}: ${message}`}</li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}
