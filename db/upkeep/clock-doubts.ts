import { max } from 'drizzle-orm';
import { audit } from '../schema/schema';
import type { Database } from '../sql/database';
import type { FoundBackup } from './rotate-backups';

/** A clinic that does nothing for so long is less likely than a clock that runs ahead. Clinic default; no source gives a figure. */
const QUIET_DAYS = 366;

const DAY_MS = 86_400_000;

/** Whether the clock of this machine can be right, set against the newest deed and the backup made last; a sentence each when it cannot. */
export async function clockDoubts(database: Database, backups: readonly FoundBackup[], now: Date): Promise<readonly string[]> {
  const [newest] = await database.select({ at: max(audit.at) }).from(audit);
  const known = [
    ...(newest?.at ? [{ what: 'the newest deed', at: new Date(newest.at) }] : []),
    ...backups.slice(0, 1).flatMap((one) => (one.made ? [{ what: 'the backup made last', at: new Date(one.made) }] : [])),
  ];
  return known.flatMap(({ what, at }) => {
    const days = (now.getTime() - at.getTime()) / DAY_MS;
    if (days >= 0 && days <= QUIET_DAYS) return [];
    return [
      `The clock of this machine says ${now.toISOString().slice(0, 16)}, but ${what} is of ${at.toISOString().slice(0, 16)}: look at it.`,
    ];
  });
}
