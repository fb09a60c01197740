'use client';

import { usePathname } from 'next/navigation';
import { useEffect } from 'react';

/** Frames that scroll sideways when what is in them is wider than the window. */
const FRAMES = '.table-frame, .chart-scroll, .scroll-across';

/** Makes a frame a stop of the Tab key while it has something to scroll to, so that arrow keys reach all of it; no stop where it has not. */
export function ReachableScrollers() {
  return <Watch key={usePathname()} />;
}

/** Looks when a place is shown and whenever the page changes its size. */
function Watch() {
  useEffect(() => {
    const observer = new ResizeObserver(() => {
      for (const frame of document.querySelectorAll<HTMLElement>(FRAMES)) {
        if (frame.scrollWidth > frame.clientWidth) frame.tabIndex = 0;
        else frame.removeAttribute('tabindex');
      }
    });
    observer.observe(document.body);
    return () => observer.disconnect();
  }, []);
  return null;
}
