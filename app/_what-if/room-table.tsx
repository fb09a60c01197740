import type { AnalysedPiece } from '@/lib/analysis/analyse-piece';
import { roomByPlace } from '@/lib/garments/room-by-place';
import type { Policy } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import { showLength, showLengthWithUnit } from '@/lib/units/show-length';

/** Room by place: for a grown person what a gain of weight asks for; and how tight one width let out all along leaves each place. */
export function RoomTable({ one, policy, letOutMm }: { one: AnalysedPiece; policy: Policy; letOutMm: number }) {
  const { fit } = one;
  if (isNoAnswer(fit)) return null;
  const { unit } = fit.latest.ladder;
  const grown = !fit.latest.growing;
  const gains = grown ? [policy.weightLookPct, policy.weightRefitPct] : [];
  const rows = roomByPlace(
    fit,
    gains.map((pct) => pct / 100),
    letOutMm,
  );
  if (!grown && letOutMm === 0) return null;
  return (
    <section className="panel" aria-labelledby="room-head">
      <h2 id="room-head">Room by place</h2>
      <p className="secondary">
        {grown
          ? 'Width that holds the strain if the limb follows a gain of weight, as those of one height do; not expected, asked for. '
          : ''}
        {letOutMm > 0
          ? `One width, ${showLengthWithUnit(letOutMm, unit)}, let out all along releases the thin end most: say by place where it is to be let out.`
          : ''}
      </p>
      <div className="table-frame">
        <table>
          <thead>
            <tr>
              <th scope="col">Place, {unit}</th>
              {gains.map((pct) => (
                <th key={pct} scope="col" className="numeric">{`For +${pct}\u202f% weight`}</th>
              ))}
              <th scope="col" className="numeric">
                As cut now
              </th>
              {letOutMm > 0 && (
                <th scope="col" className="numeric">
                  Let out all along
                </th>
              )}
            </tr>
          </thead>
          <tbody>
            {[...rows].reverse().map((row) => (
              <tr key={row.heightMm}>
                <th scope="row">{showLength(row.heightMm, unit)}</th>
                {row.forGainMm.map((width, index) => (
                  <td key={gains[index]} className="numeric">
                    {showLength(width, unit)}
                  </td>
                ))}
                <td className="numeric">{row.tightness.toFixed(2)}</td>
                {letOutMm > 0 && <td className="numeric">{row.letOutTightness.toFixed(2)}</td>}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}
