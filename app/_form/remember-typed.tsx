'use client';

import { useEffect } from 'react';
import { rememberTyped } from './typed-before';

/** Listens to every form of the page as it is sent; shows nothing. */
export function RememberTyped() {
  useEffect(() => {
    const heard = (event: SubmitEvent) => {
      if (event.target instanceof HTMLFormElement) rememberTyped(event.target);
    };
    document.addEventListener('submit', heard, true);
    return () => document.removeEventListener('submit', heard, true);
  }, []);
  return null;
}
