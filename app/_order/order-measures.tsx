import { PartDrawing } from '@/app/_picture/parts/part-drawing';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { measuresByPart } from '@/lib/orders/order-set';
import { bothUnits } from '@/lib/orders/printed-rows';
import { measureInWords } from '@/lib/parts/measure';
import { measureTaken } from '@/lib/parts/own-measure';
import type { NamedMeasure } from '@/lib/record/patient-record';
import { capitalized } from '@/lib/units/capitalized';
import styles from './order-sheet.module.css';

/** The named measures that a garment is made to, part by part: as typed, in the other unit, where the tape went, and a box for reading back. */
export function OrderMeasures({ measures, head, ownPage }: { measures: readonly NamedMeasure[]; head: string; ownPage: boolean }) {
  return (
    <section className={ownPage ? styles.nextPage : undefined} aria-label="Named measures">
      {ownPage && <h3>{`Named measures: ${head}`}</h3>}
      <div className="scroll-across">
        <table className={styles.orderMeasures} data-order-measures="">
          <caption>Named measures, as typed and converted.</caption>
          <thead>
            <tr>
              <th scope="col">Measure</th>
              <ColumnHeads of={['As typed', 'Converted']} numeric />
              <ColumnHeads of={['Read back', 'Where the tape goes']} />
            </tr>
          </thead>
          {measuresByPart(measures).map(({ words, taken }) => (
            <tbody key={words}>
              <tr>
                <th scope="rowgroup" colSpan={5}>
                  {capitalized(words)}
                  <span className={styles.partDrawings}>
                    <PartDrawing side={taken[0]?.side ?? 'middle'} measures={taken.map(({ measure }) => measure)} />
                  </span>
                </th>
              </tr>
              {taken.map((one) => (
                <MeasureRow key={`${one.side} ${one.measure}`} taken={one} />
              ))}
            </tbody>
          ))}
        </table>
      </div>
    </section>
  );
}

function MeasureRow({ taken }: { taken: NamedMeasure }) {
  const measure = measureTaken(taken);
  const { typed, unit, other, otherUnit } = bothUnits(taken.length);
  return (
    <tr>
      <th scope="row">{capitalized(measure ? measureInWords(measure, taken.side) : taken.measure)}</th>
      <td className={`numeric ${styles.sentGirth}`}>{`${typed} ${unit}`}</td>
      <td className="numeric">{`${other} ${otherUnit}`}</td>
      <td>
        <span className={styles.tickBox} aria-hidden="true" />
      </td>
      <td>{[measure?.definition, taken.note].filter(Boolean).join(' ')}</td>
    </tr>
  );
}
