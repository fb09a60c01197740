import { ColumnHeads } from '@/app/_shell/column-heads';
import { isTwiceApart } from '@/lib/doubts/measure-doubts';
import { limbInWords, type Side } from '@/lib/ladder/limb';
import { differMoreThanTape } from '@/lib/ladder/second-taping';
import { measureInWords } from '@/lib/parts/measure';
import { measureTaken } from '@/lib/parts/own-measure';
import type { Visit } from '@/lib/record/patient-record';
import type { TypedLength } from '@/lib/units/length';
import { showLengthChange } from '@/lib/units/show-length';
import styles from './result.module.css';

/** What a visit has beside its first measurings, for a table cell: `waist 84 cm; fold 25½ in above the floor; 3 places measured twice`. */
export function otherReadingsInWords(visit: Pick<Visit, 'ladders' | 'readings' | 'measures'>): string {
  const singles = (visit.readings ?? []).map(({ name, length }) => `${name} ${typed(length)}`);
  const folds = foldHeights(visit);
  const alike = new Set(folds.map(({ height }) => height.nm)).size === 1;
  const fold = alike && folds[0] ? [`fold ${typed(folds[0].height)} above the floor`] : folds.map(foldInWords);
  const twice = visit.ladders.flatMap(({ rungs }) => rungs.filter((rung) => rung.girth && rung.again)).length;
  const named = visit.measures?.length ?? 0;
  const measures = named > 0 ? [`${named} named ${named === 1 ? 'measure' : 'measures'}`] : [];
  return [...singles, ...measures, ...fold, ...(twice > 0 ? [`${twice} ${twice === 1 ? 'place' : 'places'} measured twice`] : [])].join(
    '; ',
  );
}

/** Single readings, fold heights and second tapings of a visit; nothing where there are none. */
export function OtherReadings({ visit }: { visit: Pick<Visit, 'ladders' | 'readings' | 'measures'> }) {
  const singles = visit.readings ?? [];
  const folds = foldHeights(visit);
  const rungs = visit.ladders.flatMap((ladder) =>
    ladder.rungs.flatMap(({ distance, girth, again }) => {
      const where = `${limbInWords(ladder.limb, ladder.side)}, ${typed(distance)}`;
      return girth && again ? [{ where, girth, again, more: differMoreThanTape(girth, again) }] : [];
    }),
  );
  const measures = (visit.measures ?? []).flatMap(({ measure: id, own, side, length, again }) => {
    const measure = measureTaken({ measure: id, own });
    return measure && again
      ? [{ where: measureInWords(measure, side), girth: length, again, more: isTwiceApart(measure, length, again) }]
      : [];
  });
  const pairs = [...rungs, ...measures];
  if (singles.length + folds.length + pairs.length === 0) return null;
  return (
    <section className={`panel ${styles.otherReadings}`} aria-labelledby="other-head">
      <h2 id="other-head">Also measured at this visit</h2>
      {(singles.length > 0 || folds.length > 0) && (
        <dl>
          {singles.map(({ name, length }) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd className="numeric">{typed(length)}</dd>
            </div>
          ))}
          {folds.map(({ side, height }) => (
            <div key={side}>
              <dt>{`Gluteal fold above the floor, ${side}`}</dt>
              <dd className="numeric">{typed(height)}</dd>
            </div>
          ))}
        </dl>
      )}
      {pairs.length > 0 && (
        <div className="table-frame">
          <table>
            <caption>Places measured twice. The first measuring counts; the second tells how far two readings differ.</caption>
            <thead>
              <tr>
                <th scope="col">Place</th>
                <ColumnHeads of={['First, counts', 'Second', 'Second less first']} numeric />
              </tr>
            </thead>
            <tbody>
              {pairs.map(({ where, girth, again, more }) => (
                <tr key={where}>
                  <th scope="row">{where}</th>
                  <td className="numeric">{typed(girth)}</td>
                  <td className="numeric">{typed(again)}</td>
                  <td className="numeric">
                    {apart(girth, again)}
                    {more && <span className="second-line"> more than tape error</span>}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}

function foldHeights({ ladders }: Pick<Visit, 'ladders'>): { readonly side: Side; readonly height: TypedLength }[] {
  return ladders.flatMap(({ side, floorToFold }) => (floorToFold ? [{ side, height: floorToFold }] : []));
}

function foldInWords({ side, height }: { side: Side; height: TypedLength }): string {
  return `${side} fold ${typed(height)} above the floor`;
}

/** A figure as typed, with its unit unless it was typed too. */
function typed({ text, unit }: TypedLength): string {
  return /[a-z"″]/i.test(text) ? text : `${text}\u202f${unit}`;
}

/** `+⅛ in`, `same` */
function apart(first: TypedLength, again: TypedLength): string {
  const change = showLengthChange((again.nm - first.nm) / 1e6, first.unit);
  return change === 'same' ? change : `${change}\u202f${first.unit}`;
}
