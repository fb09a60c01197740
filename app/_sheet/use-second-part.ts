import { useEffect, useState } from 'react';

export type SecondPart = typeof import('./second-part');

/** Between two tries while it cannot be loaded, ms. */
const TRY_AGAIN_MS = 10_000;

/** Once in this window it is there for every sheet. */
let here: SecondPart | undefined;

/**
 * The second part of the sheet, undefined until it has come. The page asks for it as soon as it answers to keys, before anybody needs it, so
 * that a connection lost later takes nothing away. `isMissing` while it could not be loaded; it is tried again when the connection is back.
 */
export function useSecondPart(): { readonly part: SecondPart | undefined; readonly isMissing: boolean } {
  const [stands, setStands] = useState<{ readonly part: SecondPart | undefined; readonly isMissing: boolean }>({
    part: undefined,
    isMissing: false,
  });
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    let isGone = false;
    const load = async () => {
      clearTimeout(timer);
      try {
        here ??= await import('./second-part');
        if (!isGone) setStands({ part: here, isMissing: false });
        window.removeEventListener('online', load);
      } catch {
        if (isGone) return;
        setStands({ part: undefined, isMissing: true });
        timer = setTimeout(load, TRY_AGAIN_MS);
      }
    };
    window.addEventListener('online', load);
    void load();
    return () => {
      isGone = true;
      clearTimeout(timer);
      window.removeEventListener('online', load);
    };
  }, []);
  return stands;
}
