import { StaticMarkup } from '@/app/_markup/static-markup';
import { LimbOutline } from '@/app/_picture/limb-outline';
import type { LimbPicture } from '@/app/_picture/limb-picture';
import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { countedFrom, placeOnTape } from '@/lib/ladder/place-on-tape';
import { showDay } from '@/lib/units/calendar-day';
import { showTapedLength } from '@/lib/units/show-length';

/** The limb as it was last taped, drawn from its own ladder, and the same figures as a table. */
export function LadderPanel({ picture, analysis, name }: { picture: LimbPicture; analysis: PatientAnalysis; name: string }) {
  const { policy } = analysis;
  return (
    <section className="panel" aria-labelledby={`${name}-head`}>
      <h2 id={`${name}-head`}>{`The ladder on ${showDay(picture.limbs[0]?.day ?? analysis.today)}`}</h2>
      <LimbOutline picture={picture} band={{ low: policy.bandLow, high: policy.bandHigh }} name={name} />
      <details className="as-table">
        <summary>As a table</summary>
        <OutlineTable picture={picture} />
      </details>
    </section>
  );
}

function OutlineTable({ picture }: { picture: LimbPicture }) {
  const heights = [...new Set(picture.limbs.flatMap((limb) => limb.heightsMm.map((height) => Math.round(height * 100) / 100)))].sort(
    (low, high) => high - low,
  );
  const at = (values: readonly number[], heightsMm: readonly number[], height: number): number | undefined => {
    const rung = heightsMm.findIndex((one) => Math.abs(one - height) < 0.01);
    return rung < 0 ? undefined : values[rung];
  };
  return (
    <div className="table-frame">
      <StaticMarkup as="table">
        <caption>{`Girth by place, ${picture.unit} ${countedFrom(picture.ruler)}.`}</caption>
        <thead>
          <tr>
            <th scope="col">Place, {picture.unit}</th>
            {picture.limbs.map((limb) => (
              <th key={limb.side} scope="col" className="numeric">{`${limb.side === 'left' ? 'Left' : 'Right'}, ${showDay(limb.day)}`}</th>
            ))}
            {picture.limbs.flatMap((limb) =>
              limb.strips.map((strip) => (
                <th key={`${limb.side} ${strip.piece}`} scope="col" className="numeric">{`Tightness, piece ${strip.piece}`}</th>
              )),
            )}
          </tr>
        </thead>
        <tbody>
          {heights.map((height) => (
            <tr key={height}>
              <th scope="row">{placeOnTape(height, picture.ruler)}</th>
              {picture.limbs.map((limb) => {
                const girth = at(limb.girthsMm, limb.heightsMm, height);
                return (
                  <td key={limb.side} className="numeric">
                    {girth === undefined ? '–' : showTapedLength(girth, picture.unit)}
                  </td>
                );
              })}
              {picture.limbs.flatMap((limb) =>
                limb.strips.map((strip) => {
                  const cell = strip.cells.find((one) => Math.abs(one.heightMm - height) < 8);
                  return (
                    <td key={`${limb.side} ${strip.piece}`} className="numeric">
                      {cell ? cell.tightness.toFixed(2) : '–'}
                    </td>
                  );
                }),
              )}
            </tr>
          ))}
        </tbody>
      </StaticMarkup>
    </div>
  );
}
