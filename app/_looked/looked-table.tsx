import { ColumnHeads } from '@/app/_shell/column-heads';
import type { ObservedKind } from '@/lib/observations/kind';
import type { KeptObservation } from '@/lib/observations/observation';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';
import { GoneForm, TakeBackForm } from './end-form';
import { lookedInWords } from './looked-words';

type Props = {
  readonly observations: readonly (KeptObservation & { readonly number: number })[];
  readonly kinds: readonly ObservedKind[];
  /** Number of each mark that is still there by its id, as the picture has it. */
  readonly numbers: ReadonlyMap<string, number>;
  readonly patientId: string;
  readonly today: CalendarDay;
  readonly mayWrite: boolean;
};

/** Every observation, the newest first, with the ways to correct it, to say that a mark is gone, or to take it back. */
export function LookedTable({ observations, kinds, numbers, patientId, today, mayWrite }: Props) {
  return (
    <div className="table-frame">
      <table>
        <thead>
          <tr>
            <ColumnHeads of={['Day', 'What', 'Seen', 'By']} />
            {mayWrite && <th scope="col">Change</th>}
          </tr>
        </thead>
        <tbody>
          {observations.map((one) => {
            const label = kinds.find(({ id }) => id === one.kind)?.label ?? one.kind;
            const what = `${label} of ${showDay(one.day)}`;
            const end = { patientId, observationId: one.observationId, number: one.number, today, what };
            const ends = kinds.some(({ id, where }) => id === one.kind && where === 'place') && !one.gone;
            return (
              <tr key={one.observationId}>
                <th scope="row">{showDay(one.day)}</th>
                <td>{numbers.has(one.observationId) ? `${label}, no. ${numbers.get(one.observationId)}` : label}</td>
                <td>{lookedInWords(one, kinds) || '–'}</td>
                <td>{one.rater ?? '–'}</td>
                {mayWrite && (
                  <td>
                    <a href={`/patients/${patientId}/looked?correct=${one.observationId}#form`} aria-label={`Correct ${what}`}>
                      Correct
                    </a>
                    <details>
                      <summary aria-label={`End ${what}`}>{ends ? 'Gone, or taken back' : 'Take back'}</summary>
                      {ends && <GoneForm {...end} submissionId={crypto.randomUUID()} />}
                      <TakeBackForm {...end} submissionId={crypto.randomUUID()} />
                    </details>
                  </td>
                )}
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
