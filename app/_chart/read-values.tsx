'use client';

import dynamic from 'next/dynamic';
import { useState } from 'react';
import type { ReadableLine } from './readable-chart';

const ReadableChart = dynamic(() => import('./readable-chart').then((module) => module.ReadableChart), {
  ssr: false,
  loading: () => <p className="secondary">Loading the chart…</p>,
});

/** A chart to read single values from with finger, pointer or arrow keys; its library is fetched only when asked for. */
export function ReadValues({ lines }: { lines: readonly ReadableLine[] }) {
  const [open, setOpen] = useState(false);
  return (
    <div>
      <button type="button" className="link-button" aria-expanded={open} onClick={() => setOpen(!open)}>
        {open ? 'Close the readings' : 'Read values off the chart'}
      </button>
      {open && <ReadableChart lines={lines} />}
    </div>
  );
}
