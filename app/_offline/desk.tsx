'use client';

import { lazy, Suspense, useCallback, useEffect, useState } from 'react';
import { ChooseCode } from './choose-code';
import { copyNames, copyOf, type DeviceLock, deviceLock, forget, keepLock } from './kept';
import { canLock, takeOut, unlock } from './lock';
import styles from './offline.module.css';
import { type KeptList, type KeptSheet, LIST, notOpened, type Opened } from './offline-data';
import { readyWorker } from './ready-worker';
import { TypeCode } from './type-code';

/** The sheet and all that goes with it: fetched when the code is chosen, and kept with the program's files. */
const OpenDesk = lazy(async () => ({ default: (await import('./open-desk')).OpenDesk }));

/** So many wrong codes one after another, and what is kept of patients goes. Clinic default. */
const MOST_WRONG = 10;

type Stands =
  | { readonly kind: 'looking' }
  | { readonly kind: 'no-locks' }
  | { readonly kind: 'none' }
  | { readonly kind: 'not-opened'; readonly why: string }
  | { readonly kind: 'locked'; readonly lock: DeviceLock; readonly refused: string; readonly said: string }
  | { readonly kind: 'open'; readonly opened: Opened };

/**
 * The one page that opens without a connection. Nothing of anybody is in it: what it shows it takes, with the code, out of what this device keeps.
 *
 * Left alone for as long as a session may be, it closes; what was typed waits as on any sheet.
 */
export function Desk({ build, person }: { readonly build: string; readonly person: string | null }) {
  const [stands, setStands] = useState<Stands>({ kind: 'looking' });
  const close = useCallback(async (refused = '', said = '') => {
    const lock = await deviceLock().catch(() => undefined);
    setStands(!canLock() ? { kind: 'no-locks' } : lock ? { kind: 'locked', lock, refused, said } : { kind: 'none' });
  }, []);
  useEffect(() => {
    void close();
  }, [close]);
  const open = async (lock: DeviceLock, code: string) => {
    const key = await unlock(lock, code);
    if (!key) return refuse(lock, close);
    await keepLock({ ...lock, wrongCodes: 0 });
    const opened = await takenOut(key, build);
    if (typeof opened === 'string') return setStands({ kind: 'not-opened', why: opened });
    setStands({ kind: 'open', opened });
    if (navigator.onLine) await readyWorker(build).catch(() => undefined);
  };
  if (stands.kind === 'looking') return <p role="status">Looking at what this device keeps…</p>;
  if (stands.kind === 'no-locks')
    return <p className="nothing-yet">This browser keeps nothing safely here: that takes an address with https, or this machine’s own.</p>;
  if (stands.kind === 'none') return <ChooseCode build={build} person={person} onMade={(sheets) => close('', keptInWords(sheets))} />;
  if (stands.kind === 'not-opened')
    return (
      <p className="nothing-yet">
        {stands.why} With a connection, <a href="/">open Today</a>: it is kept anew. Then open this page once.
      </p>
    );
  if (stands.kind === 'locked')
    return (
      <TypeCode
        refused={stands.refused}
        said={stands.said || (navigator.onLine ? '' : 'There is no connection.')}
        onCode={(code) => open(stands.lock, code)}
        onForget={async () => {
          await forget();
          await close();
        }}
      />
    );
  return (
    <div className={styles.desk}>
      <Suspense>
        <OpenDesk opened={stands.opened} onClose={() => close()} />
      </Suspense>
    </div>
  );
}

function keptInWords(sheets: number): string {
  const also = sheets === 0 ? '' : ` and ${sheets} ${sheets === 1 ? 'sheet' : 'sheets'}`;
  return `Kept: the list of today${also}. More sheets come as you open patients. The code opens them.`;
}

async function refuse(lock: DeviceLock, close: (refused: string) => Promise<void>): Promise<void> {
  const wrongCodes = lock.wrongCodes + 1;
  if (wrongCodes >= MOST_WRONG) await forget();
  else await keepLock({ ...lock, wrongCodes });
  await close(`This is not the code. After ${MOST_WRONG - wrongCodes} more what is kept of patients goes; what was typed stays.`);
}

/** The list and the sheets of today, or why they are not opened. */
async function takenOut(key: CryptoKey, build: string): Promise<Opened | string> {
  const list = (await keptValue(key, LIST)) as KeptList | undefined;
  const why = notOpened(list, build, new Date());
  if (!list || why !== undefined) return why ?? '';
  const names = (await copyNames()).filter((name) => name !== LIST);
  const sheets = (await Promise.all(names.map((name) => keptValue(key, name)))) as (KeptSheet | undefined)[];
  const ofToday = sheets.filter((one) => one !== undefined && one.day === list.day && one.build === build) as KeptSheet[];
  return { list, sheets: ofToday.sort((one, other) => one.data.name.localeCompare(other.data.name)) };
}

async function keptValue(key: CryptoKey, name: string): Promise<unknown> {
  const copy = await copyOf(name);
  return copy && takeOut(key, name, copy);
}
