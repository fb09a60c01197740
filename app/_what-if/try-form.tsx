'use client';

import { usePathname, useRouter } from 'next/navigation';
import { useEffect, useRef, useState } from 'react';
import { WHAT_IF_BOUNDS } from '@/lib/forms/read-what-if';
import { showLengthWithUnit } from '@/lib/units/show-length';
import styles from './what-if.module.css';

type Props = {
  readonly making: number;
  readonly out: number;
  readonly price: string;
  /** Steps of the tape that are still sewn away, and what one is; none: nothing can be let out. */
  readonly steps: number;
  readonly stepMm: number;
  readonly unit: 'in' | 'cm';
  readonly errors: Readonly<Record<string, string>>;
};

/** Days between the last move of a slider and the new figures, ms. */
const SETTLED_MS = 250;

/** Two sliders and a price. Moved, they ask for the page again and keep the focus; without script a button does. */
export function TryForm({ making, out, price, steps, stepMm, unit, errors }: Props) {
  const router = useRouter();
  const path = usePathname();
  const [days, setDays] = useState(making);
  const [width, setWidth] = useState(out);
  const form = useRef<HTMLFormElement>(null);
  const timer = useRef<number | undefined>(undefined);
  useEffect(() => () => window.clearTimeout(timer.current), []);
  const ask = () => {
    window.clearTimeout(timer.current);
    timer.current = window.setTimeout(() => {
      if (!form.current) return;
      const asked = new URLSearchParams();
      for (const [name, value] of new FormData(form.current)) asked.set(name, String(value));
      router.replace(`${path}?${asked}`, { scroll: false });
    }, SETTLED_MS);
  };
  return (
    <form ref={form} method="get" className={`panel ${styles.tried} no-print`} aria-label="What is tried">
      <div>
        <label htmlFor="making">
          Making and delivery take <output htmlFor="making">{days === 1 ? 'one day' : `${days} days`}</output>
        </label>
        <input
          id="making"
          name="making"
          type="range"
          min={WHAT_IF_BOUNDS.leastDays}
          max={WHAT_IF_BOUNDS.mostDays}
          value={days}
          aria-valuetext={`${days} days`}
          onChange={(event) => {
            setDays(Number(event.target.value));
            ask();
          }}
        />
        {errors.making && <p className="refusal">{errors.making}</p>}
      </div>
      {steps > 0 ? (
        <div>
          <label htmlFor="out">
            Let out now <output htmlFor="out">{width === 0 ? 'nothing' : showLengthWithUnit(width * stepMm, unit)}</output>
          </label>
          <input
            id="out"
            name="out"
            type="range"
            min={0}
            max={steps}
            value={width}
            aria-valuetext={width === 0 ? 'nothing' : showLengthWithUnit(width * stepMm, unit)}
            onChange={(event) => {
              setWidth(Number(event.target.value));
              ask();
            }}
          />
          {errors.out && <p className="refusal">{errors.out}</p>}
        </div>
      ) : (
        <p className="secondary">No room is left to let out of this piece.</p>
      )}
      <div>
        <label htmlFor="price">Price of a piece, where costs are to be shown</label>
        <input id="price" name="price" defaultValue={price} inputMode="decimal" maxLength={10} autoComplete="off" />
        {errors.price && <p className="refusal">{errors.price}</p>}
      </div>
      <button type="submit" className="button">
        Show
      </button>
    </form>
  );
}
