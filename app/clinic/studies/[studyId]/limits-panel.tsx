import { ColumnHeads } from '@/app/_shell/column-heads';
import type { StudyLimitsKept } from '@/db/service/study-limits';
import { limitShown, limitUnit } from '@/lib/limits/limit-in-words';
import { LIMITS } from '@/lib/limits/limits';
import { isNoAnswer } from '@/lib/outcome';
import type { StudyErrors } from '@/lib/study/study-errors';
import { limitsOfStudy, STUDY_LIMIT_NAMES, STUDY_LIMITS } from '@/lib/study/study-limits';
import { keepStudyLimitsAction, takeBackStudyLimitsAction } from '../actions';

type Props = {
  readonly studyId: string;
  readonly errors: StudyErrors;
  readonly kept: StudyLimitsKept | undefined;
  readonly mayKeep: boolean;
};

/** The spreads that the engine works with, as this study has them; nothing counts until a lead keeps it, and it can be taken back. */
export function LimitsPanel({ studyId, errors, kept, mayKeep }: Props) {
  const found = limitsOfStudy(errors);
  const any = Object.keys(found).length > 0;
  return (
    <section className="panel" aria-labelledby="study-limits">
      <h2 id="study-limits">What the engine would work with</h2>
      <p className="secondary">
        Reading, tension and placing parted by what each does along a limb. Placing is that of all tapings, whoever taped.
      </p>
      <div className="table-frame">
        <table>
          <caption>Spreads (standard deviations) with their 95 % ranges.</caption>
          <thead>
            <tr>
              <th scope="col">Limit</th>
              <ColumnHeads of={['Found', 'Range']} numeric />
            </tr>
          </thead>
          <tbody>
            {STUDY_LIMIT_NAMES.map((name) => {
              const one = errors[STUDY_LIMITS[name]];
              const shown = found[name];
              return (
                <tr key={name}>
                  <th scope="row">{LIMITS[name].does}</th>
                  <td className="numeric">{shown === undefined ? '–' : `${limitShown(name, shown)} ${limitUnit(name)}`}</td>
                  <td className="numeric">
                    {isNoAnswer(one)
                      ? one.noAnswer
                      : `${limitShown(name, Number(one.low.toPrecision(2)))}–${limitShown(name, Number(one.high.toPrecision(2)))}`}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      {kept && (
        <p>{`${kept.standing.length === 0 ? 'Was kept, and no longer stands' : `In force, ${kept.standing.length} of them`}: ${kept.reason}.`}</p>
      )}
      {mayKeep && any && (
        <div className="actions">
          {kept && kept.standing.length > 0 ? (
            <form action={takeBackStudyLimitsAction}>
              <input type="hidden" name="studyId" value={studyId} />
              <button type="submit" className="button">
                Take them back
              </button>
            </form>
          ) : (
            <form action={keepStudyLimitsAction}>
              <input type="hidden" name="studyId" value={studyId} />
              <button type="submit" className="button main">
                Keep as this clinic’s limits
              </button>
            </form>
          )}
        </div>
      )}
      {!mayKeep && <p className="secondary">A lead can keep them as the clinic’s limits.</p>}
    </section>
  );
}
