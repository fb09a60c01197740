import { ColumnHeads } from '@/app/_shell/column-heads';
import type { AnalysedPiece } from '@/lib/analysis/analyse-piece';
import { outsideOfFit } from '@/lib/garments/places-outside';
import { limbInWords } from '@/lib/ladder/limb';
import { isNoAnswer } from '@/lib/outcome';
import { outgrownInWords } from '@/lib/prompts/outlook-in-words';
import { capitalized } from '@/lib/units/capitalized';

/** A garment on several limbs, limb by limb: how it sits, and until when it fits; the one that ends its fit first is marked. */
export function LimbsOfSet({ one: { ofSet, outgrowOn, band, wear } }: { one: AnalysedPiece }) {
  if (ofSet.length === 0) return null;
  return (
    <div className="table-frame">
      <table>
        <caption>Each limb it lies on; the dates of the piece are those of the limb that ends its fit first.</caption>
        <thead>
          <tr>
            <th scope="col">Limb</th>
            <ColumnHeads of={['Loosest, as cut', 'Tightest, as cut', 'Outside the band']} numeric />
            <th scope="col">How long it fits</th>
          </tr>
        </thead>
        <tbody>
          {ofSet.map(({ limb, side, fit, outgrow }) => {
            const ends = limb === outgrowOn.limb && side === outgrowOn.side && !isNoAnswer(outgrow) && outgrow.earlyDay !== null;
            return (
              <tr key={`${side} ${limb}`}>
                <th scope="row">
                  {capitalized(limbInWords(limb, side))}
                  {ends && <span className="second-line">ends the fit first</span>}
                </th>
                {isNoAnswer(fit) ? (
                  <td colSpan={4}>{`Not known: ${fit.noAnswer}`}</td>
                ) : (
                  <>
                    <td className="numeric">{Math.min(...fit.places.map(({ tightness }) => tightness)).toFixed(2)}</td>
                    <td className="numeric">{Math.max(...fit.places.map(({ tightness }) => tightness)).toFixed(2)}</td>
                    <td className="numeric">{`${outsideOfFit(fit, wear, band).length} of ${fit.places.length}`}</td>
                    <td>{isNoAnswer(outgrow) ? `Not known: ${outgrow.noAnswer}` : `${outgrownInWords(outgrow)}.`}</td>
                  </>
                )}
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
