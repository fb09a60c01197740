'use client';

import { useEffect } from 'react';

/** What a printed page is of, at the foot of every side beside its number: a second side that comes off still says whose it is. Nothing without script. */
export function PaperFoot({ words }: { words: string }) {
  useEffect(() => {
    const { style } = document.documentElement;
    style.setProperty('--paper-foot', JSON.stringify(words));
    return () => {
      style.removeProperty('--paper-foot');
    };
  }, [words]);
  return null;
}
