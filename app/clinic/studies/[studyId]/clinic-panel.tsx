import { ColumnHeads } from '@/app/_shell/column-heads';
import type { StudyResult } from '@/lib/study/study-result';

/** Where the spread comes from, and from what on a difference is more than that. */
export function ClinicPanel({ study, ranges }: StudyResult['clinic']) {
  const { components, within, between, agreement, mean } = study;
  const parts = [
    { name: 'one hand again', sd: Math.sqrt(components.repeats), range: ranges.within },
    { name: 'who tapes', sd: Math.sqrt(components.measurers), range: ranges.measurers },
    { name: 'who tapes whom', sd: Math.sqrt(components.together), range: ranges.together },
  ];
  const error = components.repeats + components.measurers + components.together;
  return (
    <section className="panel" aria-labelledby="clinic-result">
      <h2 id="clinic-result">{`Real from ${ml(between.smallestDifference)} by another hand, ${ml(within.smallestDifference)} by the same`}</h2>
      <p className="secondary">
        {`Smallest difference between two volumes of a limb that is more than taping alone, 19 times in 20; the limbs held ${ml(mean)} on average.`}
      </p>
      <div className="table-frame">
        <table>
          <caption>Standard error of one volume, with its 95 % range.</caption>
          <thead>
            <tr>
              <th scope="col">Two tapings by</th>
              <ColumnHeads of={['SEM', 'Range', 'Real from']} numeric />
            </tr>
          </thead>
          <tbody>
            <tr>
              <th scope="row">the same hand</th>
              <td className="numeric">{ml(within.sem)}</td>
              <td className="numeric">{range(ranges.within)}</td>
              <td className="numeric">{ml(within.smallestDifference)}</td>
            </tr>
            <tr>
              <th scope="row">another hand</th>
              <td className="numeric">{ml(between.sem)}</td>
              <td className="numeric">{range(ranges.between)}</td>
              <td className="numeric">{ml(between.smallestDifference)}</td>
            </tr>
          </tbody>
        </table>
      </div>
      <div className="table-frame">
        <table>
          <caption>Where the error comes from: standard deviations, their 95 % ranges, share of the error variance.</caption>
          <thead>
            <tr>
              <th scope="col">Source</th>
              <ColumnHeads of={['SD', 'Range', 'Share']} numeric />
            </tr>
          </thead>
          <tbody>
            {parts.map((part) => (
              <tr key={part.name}>
                <th scope="row">{part.name}</th>
                <td className="numeric">{ml(part.sd)}</td>
                <td className="numeric">{part.range ? range(part.range) : 'none found: counted with one hand again'}</td>
                <td className="numeric">{error > 0 ? `${Math.round((100 * part.sd ** 2) / error)} %` : '–'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="secondary small">
        {`Intraclass correlation ${agreement.toFixed(4)}: it is near 1 wherever limbs differ much, so it never stands alone. Few measurers say little of the next one: the ranges say how little.`}
      </p>
    </section>
  );
}

function range({ low, high }: { readonly low: number; readonly high: number }): string {
  return `${short(low)}–${ml(high)}`;
}

/** A volume of an error. */
export function ml(volume: number): string {
  return `${short(volume)} ml`;
}

function short(volume: number): string {
  return volume < 10 ? volume.toFixed(1) : Math.round(volume).toLocaleString('en');
}
