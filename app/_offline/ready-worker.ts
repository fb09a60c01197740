import { deviceLock, keepLock } from './kept';

/**
 * Registers the worker, and gives it the files that this page has fetched: all that the page takes, once the sheet was loaded. Why not, where
 * the browser cannot; undefined when it is ready for this build.
 */
export async function readyWorker(build: string): Promise<string | undefined> {
  if (!navigator.serviceWorker) return 'the browser has no worker for it (a private window?).';
  await Promise.all([import('./open-desk'), import('@/app/_sheet/second-part')]);
  await navigator.serviceWorker.register('/offline-worker.js', { updateViaCache: 'none' });
  const { active } = await navigator.serviceWorker.ready;
  const channel = new MessageChannel();
  const said = new Promise<boolean>((resolve) => {
    channel.port1.onmessage = ({ data }) => resolve(data === 'kept');
  });
  active?.postMessage(
    performance.getEntriesByType('resource').map(({ name }) => name),
    [channel.port2],
  );
  if (!(await said)) return 'its files could not be kept.';
  const lock = await deviceLock();
  if (lock) await keepLock({ ...lock, build });
  return undefined;
}
