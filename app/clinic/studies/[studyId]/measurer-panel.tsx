import { AgreementPicture, showMl } from '@/app/_chart/agreement-picture';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { isNoAnswer } from '@/lib/outcome';
import type { MeasurerResult, StudyAgreement } from '@/lib/study/study-result';
import { ml } from './clinic-panel';

type Props = { readonly of: MeasurerResult; readonly name: string; readonly limbs: readonly string[] };

/** What the study says of one measurer, for them and a lead. */
export function MeasurerPanel({ of: { measurer, within, again, others }, name, limbs }: Props) {
  const id = `measurer-${measurer}`;
  return (
    <section className="panel" aria-labelledby={id}>
      <h2 id={id}>{name}</h2>
      <p>{`One volume: SEM ${ml(within.sem)}, range ${ml(within.low)}–${ml(within.high)}; two of theirs differ really from ${ml(within.smallestDifference)}.`}</p>
      <Differences title="Second taping less the first" about={name} of={again} limbs={limbs} />
      <Differences title="First taping less the mean of the others’ first" about={name} of={others} limbs={limbs} />
    </section>
  );
}

function Differences({ title, about, of, limbs }: { title: string; about: string; of: StudyAgreement; limbs: readonly string[] }) {
  const { agreement, differences } = of;
  return (
    <>
      <h3>{title}</h3>
      <p>
        {isNoAnswer(agreement)
          ? agreement.noAnswer
          : `Bias ${showMl(agreement.bias)} ml (standard error ${ml(agreement.biasError)}); 95 of 100 differences between ${showMl(agreement.low)} and ${showMl(agreement.high)} ml (standard error of a limit ${ml(agreement.limitError)}).`}
      </p>
      <div className="chart-scroll">
        <AgreementPicture {...of} said={`${about}: ${title.toLowerCase()}, over their mean. The table below has the same figures.`} />
      </div>
      <details className="as-table">
        <summary>As a table</summary>
        <div className="table-frame">
          <table>
            <caption>{`${about}: ${title.toLowerCase()}, ml.`}</caption>
            <thead>
              <tr>
                <th scope="col">Limb</th>
                <ColumnHeads of={['Mean', 'Difference']} numeric />
              </tr>
            </thead>
            <tbody>
              {differences.map(({ limb, mean, difference }) => (
                <tr key={limb}>
                  <th scope="row">{limbs[limb]}</th>
                  <td className="numeric">{Math.round(mean).toLocaleString('en')}</td>
                  <td className="numeric">{showMl(difference)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </details>
    </>
  );
}
