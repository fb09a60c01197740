import { faultGroups } from '@/lib/exchange/fault-report';
import type { ImportDoubt } from '@/lib/exchange/import-doubts';
import { showDay } from '@/lib/units/calendar-day';
import { counted } from './counted';
import type { IncomingRead } from './read-incoming';

/** Questions shown at most; the rest is counted. */
const MOST_SHOWN = 200;
/** Kinds of bad cells that are shown, each by its first cell; all of them are in the file. */
const KINDS_SHOWN = 20;
/** So many questions stand open to be read before anything is brought in. */
const OPEN_UP_TO = 20;

/** What could be read of a file: how much, each bad cell with its reason, and the questions that the sheet would have asked. */
export function WhatWasRead({
  read,
  doubts,
  reportAt,
}: {
  readonly read: IncomingRead;
  readonly doubts: readonly ImportDoubt[];
  readonly reportAt: string;
}) {
  const { patients, faults } = read;
  const kinds = faultGroups(faults);
  const visits = patients.reduce((sum, one) => sum + one.visits.length, 0);
  const girths = patients.reduce((sum, one) => sum + girthsIn(one), 0);
  return (
    <section className="panel" aria-labelledby="what-was-read">
      <h2 id="what-was-read">What was read</h2>
      <p>{`${counted(patients.length, 'patient')}, ${counted(visits, 'visit')}, ${counted(girths, 'girth')}.`}</p>
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
      {faults.length > 0 && (
        <details open={patients.length === 0}>
          <summary>{`${counted(faults.length, 'cell')} could not be read. A patient with such a cell is left out whole.`}</summary>
          <p className="secondary">Mend the cell in the file and look at the file again, or leave its column out above.</p>
          <table className="worklist">
            <thead>
              <tr>
                <th scope="col">Line</th>
                <th scope="col">Column</th>
                <th scope="col">Why</th>
              </tr>
            </thead>
            <tbody>
              {kinds.slice(0, KINDS_SHOWN).map(({ first: { file, line, column, reason }, cells }) => (
                <tr key={`${file}-${line}-${column}-${reason}`}>
                  <th scope="row">{file ? `${file}, ${line}` : line}</th>
                  <td>{column}</td>
                  <td className="whole-row">{cells > 1 ? `${reason} And ${cells - 1} more of this column.` : reason}</td>
                </tr>
              ))}
            </tbody>
          </table>
          {(kinds.length > KINDS_SHOWN || kinds.length < faults.length) && (
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
          <summary>{`${doubts.length === MOST_SHOWN ? 'At least ' : ''}${counted(doubts.length, 'reading')} would have been asked about.`}</summary>
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

/** The questions of a file's figures, no further than can be shown. */
export function firstDoubts(
  patients: IncomingRead['patients'],
  doubtsOf: (file: IncomingRead['patients'][number]) => readonly ImportDoubt[],
) {
  const found: ImportDoubt[] = [];
  for (const file of patients) {
    if (found.length >= MOST_SHOWN) break;
    found.push(...doubtsOf(file));
  }
  return found.slice(0, MOST_SHOWN);
}

function girthsIn({ visits }: IncomingRead['patients'][number]): number {
  return visits.reduce(
    (sum, visit) => sum + visit.ladders.reduce((more, { rungs }) => more + rungs.filter(({ girth }) => girth).length, 0),
    0,
  );
}
