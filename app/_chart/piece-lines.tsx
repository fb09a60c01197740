import clsx from 'clsx';
import { type CalendarDay, showDayOfYear } from '@/lib/units/calendar-day';
import styles from './chart.module.css';
import type { TimeAxis } from './time-axis';

/** A piece's life on the chart's dates. `outgrown` holds the early and the middle day, where the engine has them. */
export type PieceLine = {
  readonly piece: string;
  readonly firstWorn: CalendarDay;
  readonly endOfLife: CalendarDay | null;
  readonly retired: {
    readonly day: CalendarDay;
    readonly reason: string;
  } | null;
  readonly outgrown: {
    readonly early: CalendarDay;
    readonly middle: CalendarDay | null;
  } | null;
  /** Every day on the line, so that the axis reaches them. */
  readonly days: readonly CalendarDay[];
};

type Props = {
  pieces: readonly PieceLine[];
  axis: TimeAxis;
  top: number;
  step: number;
  today: CalendarDay;
  toX: number;
};

/** One line a piece: upright at first wear, thick to today, dotted to the end of its life; a cross where it was retired; chevrons where outgrown. */
export function PieceLines({ pieces, axis, top, step, today, toX }: Props) {
  return (
    <g className={styles.pieceLines}>
      {pieces.map((piece, index) => {
        const y = top + index * step;
        const start = axis.x(piece.firstWorn);
        const until = piece.retired ? axis.x(piece.retired.day) : axis.x(today);
        const end = piece.endOfLife ? Math.min(axis.x(piece.endOfLife), toX) : until;
        return (
          <g key={piece.piece}>
            <text className={`${styles.axisText} ${styles.strong}`} x={2} y={y + 4}>{`Piece ${piece.piece}`}</text>
            <path className={styles.worn} d={`M${start} ${y}H${Math.max(until, start)}`} />
            <path className={styles.bar} d={`M${start} ${y - 5}v10`} />
            {piece.retired ? (
              <>
                <path className={styles.cross} d={`M${until - 4} ${y - 4}l8 8m0-8l-8 8`} />
                <text className={styles.axisText} x={until + 9} y={y + 4}>
                  {piece.retired.reason}
                </text>
              </>
            ) : (
              <Ahead piece={piece} axis={axis} y={y} until={until} end={end} toX={toX} />
            )}
          </g>
        );
      })}
    </g>
  );
}

function Ahead({
  piece,
  axis,
  y,
  until,
  end,
  toX,
}: {
  piece: PieceLine;
  axis: TimeAxis;
  y: number;
  until: number;
  end: number;
  toX: number;
}) {
  const early = piece.outgrown ? Math.min(axis.x(piece.outgrown.early), toX) : null;
  const middle = piece.outgrown?.middle ? Math.min(axis.x(piece.outgrown.middle), toX) : null;
  return (
    <>
      {end > until && <path className={styles.toCome} d={`M${until} ${y}H${end}`} />}
      <path className={styles.bar} d={`M${end} ${y - 5}v10`} />
      {early !== null && (
        <g>
          {middle !== null && <rect x={early} y={y - 6} width={Math.max(middle - early, 0)} height={12} fill="url(#chart-ahead)" />}
          <path className={styles.chevron} d={`M${early} ${y - 6}l5 6l-5 6`} />
          {middle !== null && <path className={styles.chevron} d={`M${middle - 5} ${y - 6}l5 6l-5 6`} />}
        </g>
      )}
      <text className={clsx(styles.axisText, piece.outgrown && 'guess')} x={toX + 8} y={y + 4}>
        {piece.outgrown ? outgrownWords(piece.outgrown) : piece.endOfLife ? `ends ${showDayOfYear(piece.endOfLife)}` : ''}
      </text>
    </>
  );
}

function outgrownWords(outgrown: { early: CalendarDay; middle: CalendarDay | null }): string {
  const early = showDayOfYear(outgrown.early);
  return outgrown.middle && outgrown.middle !== outgrown.early ? `${early}–${showDayOfYear(outgrown.middle)}` : early;
}
