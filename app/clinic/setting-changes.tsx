import { dayAndTime } from '@/app/_shell/day-and-time';
import styles from '@/app/clinic/limits/limits.module.css';
import type { Setting } from '@/db/clinic/clinic';

/** Who changed a setting, when and why, the newest first; nothing while it stands as it came. */
export function SettingChanges({
  history,
  people,
  timeZone,
}: {
  history: readonly Setting[];
  people: readonly { readonly id: string; readonly name: string }[];
  timeZone: string;
}) {
  if (history.length === 0) return null;
  const clock = dayAndTime(timeZone);
  return (
    <>
      <h2 className="section-head">Changes</h2>
      <ul className={styles.limitHistory}>
        {[...history].reverse().map((change) => (
          <li key={change.at.toISOString()}>
            {`${clock.format(change.at)}, ${people.find((one) => one.id === change.by)?.name ?? 'somebody'}${change.reason ? `: ${change.reason}` : ', no reason given'}`}
          </li>
        ))}
      </ul>
    </>
  );
}
