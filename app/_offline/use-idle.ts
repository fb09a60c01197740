import { useEffect, useEffectEvent } from 'react';

const LOOK_MS = 5000;
const USES = ['pointerdown', 'keydown'] as const;

/** Calls once nobody has touched a key or the page for so many seconds; a machine that slept counts as idle. */
export function useIdle(seconds: number, onIdle: () => void): void {
  const idle = useEffectEvent(onIdle);
  useEffect(() => {
    let used = Date.now();
    const use = () => {
      used = Date.now();
    };
    const timer = setInterval(() => {
      if (Date.now() - used > seconds * 1000) idle();
    }, LOOK_MS);
    for (const one of USES) window.addEventListener(one, use);
    return () => {
      clearInterval(timer);
      for (const one of USES) window.removeEventListener(one, use);
    };
  }, [seconds]);
}
