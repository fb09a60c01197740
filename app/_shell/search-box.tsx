'use client';

import { useEffect, useRef } from 'react';
import styles from './page-head.module.css';

/** Finds a patient by reference or name from any page. `/` goes to it unless something is being typed. */
export function SearchBox() {
  const box = useRef<HTMLInputElement>(null);
  useEffect(() => {
    function onKey(event: KeyboardEvent) {
      const typing = event.target instanceof HTMLElement && event.target.matches('input, textarea, select, [contenteditable]');
      if (event.key !== '/' || typing || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      box.current?.focus();
    }
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, []);
  return (
    <search className={styles.pageSearch}>
      <form action="/patients">
        <label className="visually-hidden" htmlFor="page-search">
          Reference or name
        </label>
        <input id="page-search" ref={box} name="q" type="search" placeholder="Reference or name" autoComplete="off" />
        <span className={styles.keyHint} aria-hidden="true">
          /
        </span>
      </form>
    </search>
  );
}
