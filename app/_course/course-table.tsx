import { ColumnHeads } from '@/app/_shell/column-heads';
import type { ShownPhase } from '@/lib/summary/phase-words';
import { showDay } from '@/lib/units/calendar-day';

/** The phases of a course as a table; `correct` leads to the form of one, where the person may write. */
export function CourseTable({ phases, correct }: { phases: readonly ShownPhase[]; correct?: (at: number) => string }) {
  return (
    <div className="table-frame">
      <table>
        <thead>
          <tr>
            <ColumnHeads of={['Phase', 'Begins', 'Ends', 'Baseline', 'Ask again', 'Note']} />
            {correct && <th scope="col">Change</th>}
          </tr>
        </thead>
        <tbody>
          {phases.map(({ number, phase, words, end, baseline, baselineChosen, current }) => (
            <tr key={number}>
              <th scope="row">{`${number} ${words}${current ? ', now' : ''}`}</th>
              <td>{showDay(phase.from)}</td>
              <td>{phase.kind === 'ended' ? '–' : end ? showDay(end) : 'open'}</td>
              <td>{baseline ? `${showDay(baseline)}${baselineChosen ? ', chosen' : ''}` : 'nothing measured'}</td>
              <td>{phase.askOn ? showDay(phase.askOn) : '–'}</td>
              <td>{phase.note ?? '–'}</td>
              {correct && (
                <td>
                  <a href={correct(number - 1)} aria-label={`Correct phase ${number}, ${words}`}>
                    Correct
                  </a>
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
