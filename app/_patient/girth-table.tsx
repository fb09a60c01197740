import clsx from 'clsx';
import { StaticMarkup } from '@/app/_markup/static-markup';
import { limbPicture } from '@/app/_picture/limb-picture';
import { type DrawnRung, RowOutline } from '@/app/_picture/row-outline';
import type { AnalysedLimb, PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { LIMBS, limbInWords, placeInWords } from '@/lib/ladder/limb';
import { countedFrom, placeOnTape } from '@/lib/ladder/place-on-tape';
import { isNoAnswer } from '@/lib/outcome';
import { signedPct } from '@/lib/prompts/show-figures';
import { isCutFromLadderOf } from '@/lib/record/patient-record';
import { visitCutFrom } from '@/lib/record/visit-cut-from';
import { type ChangeBase, type GirthCell, girthByPlace } from '@/lib/trend/girth-by-place';
import { heightOnLimb, rulerOf } from '@/lib/trend/limb-series';
import type { SeriesVisit } from '@/lib/trend/series-visit';
import { volumeOfVisit } from '@/lib/trend/volume-over-time';
import { showDay } from '@/lib/units/calendar-day';
import { capitalized } from '@/lib/units/capitalized';
import type { LengthUnit } from '@/lib/units/length';
import { nameOf } from '@/lib/units/read-length';
import { showLength } from '@/lib/units/show-length';
import { thousands } from '@/lib/units/volume';
import styles from './girth-table.module.css';

const NEWEST_ON_PAPER = 4;

type Props = {
  readonly limb: AnalysedLimb;
  readonly analysis: PatientAnalysis;
  readonly unit: 'typed' | LengthUnit;
  readonly base: 'first' | 'cut' | 'before';
};

/** Places down the side with proximal on top, a column a visit; the figure as typed, its change small beside it with a tint. */
export function GirthTable({ limb, analysis, unit, base }: Props) {
  const { series } = limb;
  const newest = series.visits.at(-1);
  const own = newest?.ladder.unit ?? 'cm';
  const cut = analysis.pieces.filter((one) => one.inUse && isCutFromLadderOf(one.piece, series.limb, series.side)).at(-1);
  const cutVisit = cut && visitCutFrom(series.visits, cut.piece);
  const from: ChangeBase = base === 'before' ? 'before' : base === 'cut' && cutVisit ? cutVisit : 'first';
  const since = from === 'before' ? 'the visit before' : from === 'first' ? 'the first visit' : 'the visit the piece was made to';
  const rows = girthByPlace(series, analysis.policy, from);
  const shownIn = unit === 'typed' ? own : unit;
  const landmarksMm = limbPicture(analysis, series.limb)?.landmarks.map((landmark) => landmark.heightMm) ?? [];
  const between = series.visits.length - 1 - NEWEST_ON_PAPER;
  return (
    <section className={`panel ${styles.girthPanel}`} aria-labelledby={`girths-${series.side}-${series.limb}`}>
      <h2 id={`girths-${series.side}-${series.limb}`}>{capitalized(limbInWords(series.limb, series.side))}</h2>
      {base === 'cut' && !cutVisit && (
        <p className="secondary">No piece in use was made to one of these ladders; change is since the first visit.</p>
      )}
      <p id={`girths-said-${series.side}-${series.limb}`} className="secondary">
        {`Girth, ${unit === 'typed' ? 'as typed' : nameOf(shownIn)}; places counted in ${nameOf(shownIn)} ${newest ? `${countedFrom(newest.ladder)}, ` : ''}on the newest ladder. Small: how much larger (+) or smaller (−) the girth is there than at ${since}.`}
      </p>
      {between > 0 && (
        <p className="print-only secondary">
          {`The first visit and the newest ${NEWEST_ON_PAPER}; ${between} between them are not printed.`}
        </p>
      )}
      <div className={styles.girthsBeside}>
        <RowOutline
          side={series.side}
          rungs={rows.flatMap(({ heightMm, cells }, row): DrawnRung[] => {
            const girthMm = cells.at(-1)?.girthMm;
            return girthMm === undefined ? [] : [{ placeMm: heightMm, girthMm, row, beforeMm: null, roomMm: null }];
          })}
          landmarksMm={landmarksMm}
          rows={rows.length}
          rowPx={40}
        />
        <div className="table-frame from-the-end">
          <StaticMarkup as="table" className={styles.girthTable} aria-labelledby={`girths-said-${series.side}-${series.limb}`}>
            <thead>
              <tr>
                <th scope="col">Place</th>
                {series.visits.map((visit, column) => (
                  <th
                    key={visit.visit.day + (visit.visit.time ?? '')}
                    scope="col"
                    className={clsx('numeric', onPaper(column, series.visits.length))}
                  >
                    {showDay(visit.visit.day)}
                    {visit === cutVisit && <span className="second-line">made to this</span>}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {rows.map((row) => (
                <tr key={row.heightMm}>
                  <th scope="row" className="numeric">
                    {newest && placeOnTape(row.heightMm, rulerOf(newest), shownIn)}
                  </th>
                  {row.cells.map((cell, column) => (
                    <Cell
                      key={series.visits[column]?.visit.day ?? column}
                      paper={onPaper(column, series.visits.length)}
                      cell={cell}
                      visit={series.visits[column] as SeriesVisit}
                      heightMm={row.heightMm}
                      unit={unit}
                      shownIn={shownIn}
                    />
                  ))}
                </tr>
              ))}
            </tbody>
            <Below limb={limb} analysis={analysis} shownIn={shownIn} />
          </StaticMarkup>
        </div>
      </div>
      <p className="secondary">
        One rung is known to about 3 mm, 1 to 2 % here: read the column, not the cell. Volume is over the stretch that every visit covers.
      </p>
    </section>
  );
}

/** Of many visits paper holds the first and the newest: the class of a column that stays away from it. */
function onPaper(column: number, visits: number): string {
  return column === 0 || column >= visits - NEWEST_ON_PAPER ? '' : 'no-print';
}

function Cell({
  cell,
  visit,
  paper,
  heightMm,
  unit,
  shownIn,
}: {
  cell: GirthCell | null;
  visit: SeriesVisit;
  paper: string;
  heightMm: number;
  unit: 'typed' | LengthUnit;
  shownIn: LengthUnit;
}) {
  if (!cell) return <td className={clsx('numeric', paper)}>–</td>;
  const elsewhere = Math.abs(cell.takenAtMm - heightMm) > 8;
  return (
    <td className={clsx('numeric', paper)} data-tint={tintOf(cell.change)}>
      <span className={styles.girth}>{unit === 'typed' ? cell.text : showLength(cell.girthMm, unit, 16)}</span>
      {cell.change !== null && <span className={styles.change}>{signedPct(cell.change)}</span>}
      {elsewhere && <span className="second-line">{`at ${placeOnTape(cell.takenAtMm, rulerOf(visit), shownIn)}`}</span>}
    </td>
  );
}

/** Four steps of tint to each side; the signed figure stands in every cell, so colour carries nothing alone. */
function tintOf(change: number | null): string | undefined {
  if (change === null || Math.abs(change) < 0.005) return undefined;
  const step = Math.min(4, Math.ceil(Math.abs(change) / 0.02));
  return `${change > 0 ? 'larger' : 'smaller'}-${step}`;
}

function Below({ limb, analysis, shownIn }: { limb: AnalysedLimb; analysis: PatientAnalysis; shownIn: LengthUnit }) {
  const { visits } = limb.series;
  const middle = LIMBS[limb.series.limb].landmarks[1];
  const row = (name: string, of: (visit: SeriesVisit) => string) => (
    <tr>
      <th scope="row">{name}</th>
      {visits.map((visit, column) => (
        <td key={visit.visit.day + (visit.visit.time ?? '')} className={clsx('numeric', onPaper(column, visits.length))}>
          {of(visit)}
        </td>
      ))}
    </tr>
  );
  return (
    <tbody className={styles.below}>
      {row('volume, ml', (visit) => {
        const volume = volumeOfVisit(visit, analysis.policy);
        return isNoAnswer(volume) ? '–' : thousands(Math.round(volume.volumeMl));
      })}
      {row('height', ({ visit }) => (visit.height ? unitBeside(visit.height) : '–'))}
      {row('weight', ({ visit }) => (visit.weight ? unitBeside(visit.weight) : '–'))}
      {row(`${placeInWords(middle)} at, ${shownIn}`, (visit) => {
        const placed = visit.placed.landmarks.get(middle);
        return placed
          ? `${placeOnTape(heightOnLimb(visit, placed.placeMm), rulerOf(visit), shownIn)}${placed.inferred ? ' inferred' : ''}`
          : '–';
      })}
      {row('measured by', ({ visit }) => [visit.measurer, visit.posture].filter(Boolean).join(', ') || '–')}
    </tbody>
  );
}

/** A figure as typed, with its unit unless it was typed too. */
export function unitBeside({ text, unit }: { readonly text: string; readonly unit: string }): string {
  return /[a-z"″]/i.test(text) ? text : `${text}\u202f${unit}`;
}
