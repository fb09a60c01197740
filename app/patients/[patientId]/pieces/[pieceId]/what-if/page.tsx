import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { requireTherapist } from '@/app/_auth/therapist';
import { PatientTitle } from '@/app/_patient/patient-title';
import { loadPatient } from '@/app/_record/load-patient';
import { PrintButton } from '@/app/_shell/print-button';
import { ProtocolLine } from '@/app/_shell/protocol-line';
import { ChanceChart } from '@/app/_what-if/chance-chart';
import { RoomTable } from '@/app/_what-if/room-table';
import { TryForm } from '@/app/_what-if/try-form';
import { chanceInWords, daysInWords, WAY_WORDS } from '@/app/_what-if/way-words';
import { WaysTable, WeeksTable } from '@/app/_what-if/ways-table';
import { type WhatIf, whatIf } from '@/lib/analysis/what-if';
import { readWhatIf } from '@/lib/forms/read-what-if';
import { letOutMm } from '@/lib/garments/let-out';
import { STEP_MM } from '@/lib/garments/room-to-grow';
import { limbInWords } from '@/lib/ladder/limb';
import { isNoAnswer } from '@/lib/outcome';
import { nextReview } from '@/lib/record/next-visit';
import { addDays, type CalendarDay, showDay } from '@/lib/units/calendar-day';
import { mm } from '@/lib/units/length';

export const metadata: Metadata = { title: 'What if' };

type Asked = {
  params: Promise<{ patientId: string; pieceId: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
};

/** Let out, order now, order at the next visit or wait: what becomes of this limb's pieces, side by side. It proposes nothing. */
export default async function WhatIfPage({ params, searchParams }: Asked) {
  const [{ patientId, pieceId }, query] = [await params, await searchParams];
  const therapist = await requireTherapist(`/patients/${patientId}/pieces/${pieceId}/what-if`);
  const { record, analysis, dates, today } = await loadPatient(therapist, patientId);
  const piece = record.pieces.find((one) => one.pieceId === pieceId);
  const one = analysis.pieces.find((other) => other.piece.piece === piece?.piece);
  if (!piece || !one) notFound();
  const unit = isNoAnswer(one.fit) ? 'cm' : one.fit.latest.ladder.unit;
  const stepMm = STEP_MM[unit];
  const roomMm = piece.allowance ? mm(piece.allowance.nm) - letOutMm(piece) : 0;
  const steps = Math.max(Math.floor(roomMm / stepMm + 1e-6), 0);
  const typed = Object.fromEntries(Object.entries(query).map(([name, value]) => [name, typeof value === 'string' ? value : undefined]));
  const { tried, errors } = readWhatIf(typed, { making: piece.leadDays, steps });
  const [nextVisit, visitAfter] = visitsAhead(
    dates.filter(({ kind, day }) => (kind === 'visit' || kind === 'booking') && day > today).map(({ day }) => day),
    nextReview(record, analysis.policy, today)?.days ?? 84,
    addDays(today, analysis.policy.measuringDays),
  );
  const asked = { makingDays: tried.making, letOutMm: tried.out * stepMm, nextVisit, visitAfter };
  const answer = whatIf(analysis, one, asked);
  return (
    <main id="main">
      <PatientTitle
        record={record}
        today={today}
        saying={`Piece ${piece.piece}, ${limbInWords(piece.limb, piece.side)}, and the next one: what if?`}
      >
        <PrintButton words="Print" />
        <a className="button" href={`/patients/${patientId}/pieces/${pieceId}`} data-soft="">
          Back to the piece
        </a>
      </PatientTitle>
      <div className="stack">
        <TryForm
          making={tried.making}
          out={tried.out}
          price={typed.price ?? ''}
          steps={Math.min(steps, 40)}
          stepMm={stepMm}
          unit={unit}
          errors={errors}
        />
        {isNoAnswer(answer) ? (
          <p className="nothing-yet">{`This cannot be looked ahead at: ${answer.noAnswer}`}</p>
        ) : (
          <>
            <section className="panel" aria-labelledby="ways-head">
              <h2 id="ways-head">Four ways</h2>
              <p className="secondary">
                {`Making ${tried.making} days${tried.out > 0 && steps > 0 ? `, let out ${tried.out} of ${steps} tape steps` : ''}; next visit ${showDay(nextVisit)}, the one after it ${showDay(visitAfter)}; ${answer.pieces.length === 1 ? `piece ${answer.pieces[0]}` : `pieces ${answer.pieces.join(', ')}`} in turn${answer.awaited.map(({ piece: other, day }) => `, piece ${other} expected ${showDay(day)}`).join('')}.`}
              </p>
              <WaysTable tried={answer} price={tried.price} />
            </section>
            <section className="panel" aria-labelledby="chance-head">
              <h2 id="chance-head">Chance of no working piece, by week</h2>
              <div className="chart-scroll">
                <ChanceChart tried={answer} said={sentence(answer)} />
              </div>
              <WeeksTable tried={answer} />
            </section>
            <p className="secondary">
              {`By the same outlook as today’s dates: girths as cut. Wear is the life of the piece, ± ${analysis.policy.lifeSpreadDays} days; making as tried, its slow tenth ${analysis.policy.makingSpreadPct}\u202f% longer. Growth fast for this piece is fast for the next one. Outside the band counts length too, which letting out does not help. Given up: life of the pieces in use that is left when the next one comes. It compares and proposes nothing.`}
            </p>
          </>
        )}
        <RoomTable one={one} policy={analysis.policy} letOutMm={asked.letOutMm} />
      </div>
      <ProtocolLine />
    </main>
  );
}

/** The next visit and the one after it: as planned, else so many days on. */
function visitsAhead(planned: readonly CalendarDay[], days: number, soonest: CalendarDay): readonly [CalendarDay, CalendarDay] {
  const next = [...planned].sort()[0] ?? soonest;
  return [next, addDays(next, days)];
}

function sentence({ ways }: WhatIf): string {
  return ways
    .flatMap(({ id, ahead }) =>
      isNoAnswer(ahead)
        ? []
        : [
            `${WAY_WORDS[id].full}: at most ${chanceInWords(ahead.worst.chance)} per cent, ${daysInWords(ahead.daysWithout.median)} days without`,
          ],
    )
    .join('; ');
}
