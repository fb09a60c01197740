'use client';

import { type ComponentType, type KeyboardEvent, type ReactNode, useRef, useState } from 'react';
import styles from './read-in-place.module.css';
import type { ChartReadings } from './readings';

type Marks = ComponentType<{ of: ChartReadings; at: number; onAt: (point: number) => void }>;

type Props = {
  readonly of: ChartReadings;
  /** What the chart shows, for the names of its keys. */
  readonly name: string;
  /** What its points are called, and the words of the keys from one to the next. */
  readonly points?: string;
  readonly keys?: readonly [back: string, on: string];
  /** Where the figures stand, and how wide the drawing is: beside one of a fixed width, or under one that is small or as wide as its panel. */
  readonly layout?: 'beside' | 'small' | 'wide';
  /** Stands after the figures. */
  readonly beside?: ReactNode;
  /** The chart as it is drawn. */
  readonly children: ReactNode;
};

/** A drawn chart that is read where it stands, with pointer, finger or arrow keys; each point's figures are beside it. Its library is fetched only then. */
export function ReadInPlace({ of, name, points = 'Visits', keys = ['Earlier', 'Later'], layout = 'beside', beside, children }: Props) {
  const last = of.points.length - 1;
  const [at, setAt] = useState(of.first ?? last);
  const [marks, setMarks] = useState<{ readonly Marks: Marks }>();
  const here = of.points[at];
  const frame = useRef<HTMLDivElement>(null);
  /** Fetches the library once the chart is reached; where it cannot be fetched the figures beside it are read all the same. */
  const read = () => {
    if (!marks)
      import('./reading-marks').then(
        ({ ReadingMarks }) => setMarks({ Marks: ReadingMarks }),
        () => undefined,
      );
  };
  const go = (to: number) => {
    read();
    const next = Math.min(Math.max(to, 0), last);
    setAt(next);
    if (frame.current && of.points[next]) bringIntoView(frame.current, shareOf(of, of.points[next].at));
  };
  const onKey = (event: KeyboardEvent) => {
    const to = { ArrowLeft: at - 1, ArrowRight: at + 1, Home: 0, End: last }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    go(to);
  };
  return (
    <div className={styles.readable} data-layout={layout}>
      <div ref={frame} className={layout === 'small' ? undefined : `chart-scroll ${layout === 'beside' ? 'from-the-end' : ''}`}>
        <div className={styles.plot} onPointerEnter={read}>
          {children}
          {marks && <marks.Marks of={of} at={at} onAt={setAt} />}
        </div>
      </div>
      <div className={styles.beside}>
        {here && (
          <div className={styles.figures} aria-live="polite">
            <b>{here.words}</b>
            <dl>
              {here.readings.map(({ name: series, shape, text, range }) => (
                <div key={series} data-side={shape}>
                  <dt className="side-word">{series}</dt>
                  <dd>
                    <b>{text}</b> <span className="secondary">{range}</span>
                  </dd>
                </div>
              ))}
            </dl>
          </div>
        )}
        {last > 0 && (
          <fieldset className={styles.keys} aria-label={`${points} of ${name}`}>
            <button className="button" type="button" aria-disabled={at === 0} onClick={() => go(at - 1)} onKeyDown={onKey}>
              {`‹ ${keys[0]}`}
            </button>
            <button className="button" type="button" aria-disabled={at === last} onClick={() => go(at + 1)} onKeyDown={onKey}>
              {`${keys[1]} ›`}
            </button>
            <span className="secondary">{`${at + 1} of ${last + 1}`}</span>
          </fieldset>
        )}
        {beside}
      </div>
    </div>
  );
}

/** How far along the width of its drawing a point stands, 0 to 1. */
function shareOf({ fromX, toX, width, along: [from, to] }: ChartReadings, at: number): number {
  return (fromX + ((at - from) / (to - from)) * (toX - fromX)) / width;
}

/** Room that is left between a point and the edge of the frame that scrolls, px. */
const CLEAR = 40;

/** On a narrow screen the chart scrolls in its frame: the point that the keys go to is brought into it. */
function bringIntoView(frame: HTMLElement, share: number) {
  const [around, plot] = [frame.getBoundingClientRect(), frame.firstElementChild?.getBoundingClientRect()];
  if (!plot) return;
  const x = plot.left + share * plot.width;
  if (x < around.left + CLEAR || x > around.right - CLEAR) frame.scrollLeft += x - (around.left + around.width / 2);
}
