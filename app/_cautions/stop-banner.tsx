import styles from './cautions.module.css';
import type { ShownCard } from './shown-card';

/** What stops, before anything else of the page; nothing while no card does. */
export function StopBanner({ cards }: { readonly cards: readonly ShownCard[] }) {
  const stops = cards.filter(({ holds }) => holds);
  if (stops.length === 0) return null;
  const whom = [...new Set(stops.map(({ held }) => held))].join(', ');
  return (
    <section className={styles.stopBanner} aria-labelledby="stop-head">
      <svg viewBox="0 0 20 20" width="20" height="20" aria-hidden="true">
        <path d="M6.2 1h7.6L19 6.2v7.6L13.8 19H6.2L1 13.8V6.2z" />
      </svg>
      <div>
        <h2 id="stop-head">{`Stop. No order is sent and nothing is handed over ${whom} until the prescriber has answered.`}</h2>
        {stops.map(({ id, title, last }) => (
          <p key={id}>
            <b>{title}</b>: {last}
          </p>
        ))}
        <p className="secondary">A stop does not clear by itself: a person writes what was answered and by whom, on the card below.</p>
      </div>
    </section>
  );
}
