import { parseArgs } from 'node:util';
import { benchAnalysis } from './analysis';
import { benchFirstLoad } from './first-load';
import { benchSave } from './save';
import { benchVolumes } from './volumes';
import { benchWorklist } from './worklist';

const FULL = { ladders: 200_000, saves: 300, patients: 10_000, clinics: [1000, 10_000, 100_000] } as const;
const QUICK = { ladders: 20_000, saves: 100, patients: 400, clinics: [1000, 10_000] } as const;

/**
 * Every ratio of the bench, in one run: `npm run bench`, or `npm run bench -- --quick` for a small one.
 *
 * Seconds depend on the machine; the ratios compare two pieces of work on the same one, one after the other.
 */
async function run(): Promise<void> {
  const { values } = parseArgs({ options: { quick: { type: 'boolean' } } });
  const size = values.quick ? QUICK : FULL;
  benchVolumes(size.ladders);
  await benchSave(size.saves);
  benchAnalysis(size.patients, 20);
  const few = benchAnalysis(size.patients / 10, 10).perVisit;
  const many = benchAnalysis(size.patients / 20, 40).perVisit;
  console.log(`Cost of a visit with 40 visits on record against one with 10: ${(many / few).toFixed(2)} times`);
  benchFirstLoad();
  await benchWorklist(size.clinics);
}

await run();
