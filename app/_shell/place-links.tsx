'use client';

import { usePathname } from 'next/navigation';
import styles from './page-head.module.css';

const PLACES = [
  { href: '/', word: 'Today' },
  { href: '/patients', word: 'Patients' },
  { href: '/diary', word: 'Diary' },
  { href: '/pieces', word: 'Pieces' },
  { href: '/clinic', word: 'Clinic' },
];

/** The five places of the program, with a bar under the one shown. */
export function PlaceLinks() {
  const path = usePathname();
  const isHere = (href: string) => (href === '/' ? path === '/' : path === href || path.startsWith(`${href}/`));
  return (
    <ul className={styles.places}>
      {PLACES.map(({ href, word }) => (
        <li key={href}>
          <a href={href} aria-current={isHere(href) ? 'page' : undefined} data-soft="">
            {word}
          </a>
        </li>
      ))}
    </ul>
  );
}
