'use client';

import dynamic from 'next/dynamic';
import { type KeyboardEvent, type ReactNode, useState } from 'react';
import styles from './read-in-place.module.css';
import type { ChartReadings } from './readings';

const ReadingMarks = dynamic(() => import('./reading-marks').then((module) => module.ReadingMarks), { ssr: false });

type Props = {
  readonly of: ChartReadings;
  /** What the chart shows, for the names of its keys. */
  readonly name: string;
  /** Stands under the figures, beside the chart. */
  readonly beside?: ReactNode;
  /** The chart as it is drawn. */
  readonly children: ReactNode;
};

/** A drawn chart that is read where it stands, with pointer, finger or arrow keys; each visit's figures are beside it. Its library is fetched only then. */
export function ReadInPlace({ of, name, beside, children }: Props) {
  const [at, setAt] = useState(of.visits.length - 1);
  const [isRead, setRead] = useState(false);
  const here = of.visits[at];
  const go = (to: number) => {
    setRead(true);
    setAt(Math.min(Math.max(to, 0), of.visits.length - 1));
  };
  const onKey = (event: KeyboardEvent) => {
    const to = { ArrowLeft: at - 1, ArrowRight: at + 1, Home: 0, End: of.visits.length - 1 }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    go(to);
  };
  return (
    <div className={styles.readable}>
      <div className="chart-scroll from-the-end">
        <div className={styles.plot} onPointerEnter={() => setRead(true)}>
          {children}
          {isRead && <ReadingMarks of={of} at={at} onAt={setAt} />}
        </div>
      </div>
      <div className={styles.beside}>
        {here && (
          <div className={styles.figures} aria-live="polite">
            <b>{here.words}</b>
            <dl>
              {here.readings.map(({ side, name: limb, text, range }) => (
                <div key={limb} data-side={side}>
                  <dt className="side-word">{limb}</dt>
                  <dd>
                    <b>{text}</b> <span className="secondary">{range}</span>
                  </dd>
                </div>
              ))}
            </dl>
          </div>
        )}
        {of.visits.length > 1 && (
          <fieldset className={styles.keys} aria-label={`Visits of ${name}`}>
            <button className="button" type="button" aria-disabled={at === 0} onClick={() => go(at - 1)} onKeyDown={onKey}>
              ‹ Earlier
            </button>
            <button
              className="button"
              type="button"
              aria-disabled={at === of.visits.length - 1}
              onClick={() => go(at + 1)}
              onKeyDown={onKey}
            >
              Later ›
            </button>
            <span className="secondary">{`${at + 1} of ${of.visits.length}`}</span>
          </fieldset>
        )}
        {beside}
      </div>
    </div>
  );
}
