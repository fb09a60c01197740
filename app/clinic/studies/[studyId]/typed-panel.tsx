import { ColumnHeads } from '@/app/_shell/column-heads';
import { dayAndTime } from '@/app/_shell/day-and-time';
import type { Study, StudyState } from '@/db/service/studies';
import { studyLimbInWords } from '@/lib/study/study-plan';

type Props = {
  readonly study: Study;
  readonly states: ReadonlyMap<string, readonly StudyState[]>;
  readonly personId: string;
  readonly timeZone: string;
};

/** Every typing behind the result: what was typed, when, and why it was corrected. One's own can be corrected. */
export function TypedPanel({ study: { studyId, plan }, states, personId, timeZone }: Props) {
  const clock = dayAndTime(timeZone);
  const rows = [...states].flatMap(([turn, each]) => each.map((state, index) => ({ turn, state, isLast: index === each.length - 1 })));
  return (
    <details className="as-table">
      <summary>{`What was typed (${rows.length})`}</summary>
      <div className="table-frame">
        <table>
          <caption>{`Girths in ${plan.unit}, from the lowest up; of a corrected taping every state.`}</caption>
          <thead>
            <tr>
              <ColumnHeads of={['Limb', 'By', 'Girths', 'When']} />
            </tr>
          </thead>
          <tbody>
            {rows.map(({ turn, state, isLast }) => {
              const { measurer, limb, repeat } = state.run.turn;
              const of = plan.limbs[limb];
              const by = plan.measurers[measurer];
              return (
                <tr key={`${turn} ${state.number}`}>
                  <th scope="row">{of ? `${studyLimbInWords(of)}, taping ${repeat + 1}` : ''}</th>
                  <td>{by?.name}</td>
                  <td>{state.run.girths.map(({ text }) => text).join(' · ')}</td>
                  <td>
                    {clock.format(state.at)}
                    {state.reason ? `, corrected: ${state.reason}` : ''}
                    {isLast ? '' : ' (no longer counts)'}
                    {isLast && by?.id === personId && (
                      <>
                        {' '}
                        <a href={`/clinic/studies/${studyId}/${turn}`} data-soft="">
                          Correct
                        </a>
                      </>
                    )}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
    </details>
  );
}
