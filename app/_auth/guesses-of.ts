import 'server-only';
import { Worker } from 'node:worker_threads';

/** Characters that are looked at: the rest only makes a password harder, and the estimator's time grows faster than its text. */
const LOOKED_AT = 40;
/** An estimate that takes longer is given up. */
const LONGEST_MS = 15_000;

/**
 * The estimator with its word lists (English, Spanish, names, leaked passwords) in a thread of its own: loading them takes a second, and a
 * row of figures another, in which nobody else is to wait. Packages are named as text, so that no list ever goes to a browser.
 */
const ESTIMATOR = `
const { parentPort, workerData } = require('node:worker_threads');
const { ZxcvbnFactory } = require('@zxcvbn-ts/core');
const common = require('@zxcvbn-ts/language-common');
const [en, es] = [require('@zxcvbn-ts/language-en'), require('@zxcvbn-ts/language-es-es')];
const dictionary = { ...common.dictionary, ...en.dictionary, ...es.dictionary };
const estimator = new ZxcvbnFactory({ dictionary, graphs: common.adjacencyGraphs });
parentPort.postMessage(estimator.check(workerData.password, workerData.ownWords).guesses);
`;

let last: Promise<unknown> = Promise.resolve();

/** How many guesses somebody needs who tries what people choose first; one estimate at a time, however many are asked for. */
export function guessesOf(password: string, ownWords: readonly string[]): Promise<number> {
  const estimate = last.then(() => estimated([...password].slice(0, LOOKED_AT).join(''), ownWords));
  last = estimate.catch(() => undefined);
  return estimate;
}

function estimated(password: string, ownWords: readonly string[]): Promise<number> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(ESTIMATOR, {
      eval: true,
      workerData: { password, ownWords },
      resourceLimits: { maxOldGenerationSizeMb: 512 },
    });
    const late = setTimeout(() => {
      void worker.terminate();
      reject(new Error('the estimate of a password took too long'));
    }, LONGEST_MS);
    worker.once('message', (guesses: number) => resolve(guesses));
    worker.once('error', reject);
    worker.once('exit', () => {
      clearTimeout(late);
      reject(new Error('the estimate of a password ended without an answer'));
    });
  });
}
