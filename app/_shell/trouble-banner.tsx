import { standingTrouble } from '@/db/sql/storage-trouble';
import { TROUBLE_WORDS } from './trouble-words';

/** Says over every page that nothing can be saved just now, and why; nothing while the last write was kept. */
export function TroubleBanner() {
  const trouble = standingTrouble();
  if (!trouble) return null;
  return (
    <p className="refused-box no-print" role="status">
      {TROUBLE_WORDS[trouble]}
    </p>
  );
}
