import type { KeptOrder } from '@/db/patients/read-orders';
import type { KeptPiece } from '@/db/patients/read-pieces';
import { lengthAsTyped } from '@/lib/forms/read-cut';
import { formOf } from '@/lib/garment-forms/own-form';
import { letOutMm } from '@/lib/garments/let-out';
import { pieceStage } from '@/lib/garments/piece-stage';
import { daysWorn, endOfLife, wearDays } from '@/lib/garments/wear';
import { conventionInWords, optionsInWords, pressureInWords, wornInWords } from '@/lib/orders/order-difference';
import { isNoAnswer } from '@/lib/outcome';
import { coverInWords } from '@/lib/prompts/show-figures';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';
import { mm } from '@/lib/units/length';
import { showLengthWithUnit } from '@/lib/units/show-length';

type Props = { piece: KeptPiece; all: readonly KeptPiece[]; order: KeptOrder | undefined; today: CalendarDay };

/** What stands on record of a piece, from the order to the last day of its life; each figure with its unit and day. */
export function PieceLife({ piece, all, order, today }: Props) {
  const rows: readonly (readonly [string, string | null])[] = [
    ['Now', pieceStage(piece, today)],
    ['Garment', piece.garment ? `${formOf(piece.garment)?.words ?? piece.garment.form}, ${wornInWords(piece.garment)}` : 'not recorded'],
    ['Covers', coverInWords(piece.covers)],
    ['Made to the measurements of', `${showDay(piece.cutFrom)}`],
    ['Reduction', `${piece.reductionPct}\u202f%, ${conventionInWords(piece.convention)}`],
    ['Class', piece.garment && pressureInWords(piece.garment)],
    ['Options', piece.garment && optionsInWords(piece.garment)],
    ['Room to let out', room(piece)],
    ['Delivered', piece.delivered ? showDay(piece.delivered) : piece.expected ? `expected ${showDay(piece.expected)}` : null],
    ['First fit', firstFit(piece)],
    ['First worn', piece.firstWorn ? showDay(piece.firstWorn) : 'not yet'],
    ['Wear-in', wearIn(piece)],
    ['Worn', worn(piece, all, today)],
    ['Replacement due', life(piece)],
    ['Altered', alterations(piece)],
    ['Out of use', piece.retired ? `${showDay(piece.retired)}, ${piece.retiredReason ?? 'no reason recorded'}` : null],
  ];
  return (
    <section className="panel" aria-labelledby="life-head">
      <div className="panel-head">
        <h2 id="life-head">On record</h2>
        {order && (
          <a href={`/patients/${piece.patientId}/orders/${order.orderId}`} data-soft="">
            {`Order ${order.order}`}
          </a>
        )}
      </div>
      <dl className="fact-rows">
        {rows.map(([what, words]) =>
          words ? (
            <div key={what}>
              <dt>{what}</dt>
              <dd>{words}</dd>
            </div>
          ) : null,
        )}
      </dl>
    </section>
  );
}

function room(piece: KeptPiece): string {
  if (!piece.allowance) return 'none';
  const out = letOutMm(piece);
  return `${lengthAsTyped(piece.allowance)} in total${out > 0 ? `, ${showLengthWithUnit(out, piece.allowance.unit)} let out` : ', none let out'}`;
}

/** Room that is still sewn away, in words of the tape. */
export function roomLeft(piece: KeptPiece): string | null {
  if (!piece.allowance) return null;
  const left = mm(piece.allowance.nm) - letOutMm(piece);
  return left > 0 ? showLengthWithUnit(left, piece.allowance.unit) : null;
}

function firstFit({ fit, firstFit: day, firstWorn }: KeptPiece): string {
  if (!fit) return day ? `checked ${showDay(day)}` : firstWorn ? 'not recorded' : 'not yet';
  const odd = fit.zones.filter((one) => one.fit !== 'good').map((one) => `${one.zone} ${one.fit}`);
  const said = [odd.length > 0 ? odd.join(', ') : 'every zone good', fit.reason, fit.words].filter(Boolean).join('; ');
  return `${showDay(fit.day)}: ${fit.outcome}; ${said}${fit.taught ? '; teaching done' : '; teaching not recorded'}`;
}

function wearIn({ wearIn: plan }: KeptPiece): string | null {
  if (!plan) return null;
  const call = plan.called
    ? `called ${showDay(plan.called)}${plan.callNote ? `: ${plan.callNote}` : ''}`
    : `early call due ${showDay(plan.callOn)}`;
  return `${plan.firstHours} to ${plan.fullHours} hours a day over ${plan.days} days; ${call}`;
}

function worn(piece: KeptPiece, all: readonly KeptPiece[], today: CalendarDay): string | null {
  const days = daysWorn(piece, today);
  const share = wearDays(piece, all, today);
  if (isNoAnswer(days) || isNoAnswer(share)) return null;
  return `${days} calendar days, about ${Math.round(share)} of them on the limb (shared with the pieces in rotation)`;
}

function life(piece: KeptPiece): string {
  const end = endOfLife(piece);
  return isNoAnswer(end) ? `${piece.lifeDays} days from first wear` : `${showDay(end)}, ${piece.lifeDays} days from first wear`;
}

function alterations({ alterations: done }: KeptPiece): string | null {
  if (!done || done.length === 0) return null;
  return done
    .map((one) =>
      [showDay(one.day), one.kind === 'let out' && one.width ? `let out ${lengthAsTyped(one.width)}` : 'altered', one.words]
        .filter(Boolean)
        .join(', '),
    )
    .join('; ');
}
