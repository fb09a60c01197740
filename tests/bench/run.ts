import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { MISSED, sayMissed } from './aims';
import { benchAnalysis } from './analysis';
import * as clinics from './clinic-sizes';
import { benchFirstLoad } from './first-load';
import { benchVolumes } from './volumes';

const FULL = { ladders: 200_000, patients: 10_000, clinics: clinics.FULL } as const;
const QUICK = { ladders: 20_000, patients: 400, clinics: clinics.QUICK } as const;

/**
 * Every ratio of the bench, in one run: `npm run bench`, or `npm run bench -- --quick` for a small one.
 *
 * Seconds depend on the machine; the ratios compare two pieces of work on the same one, one after the other. Each stands beside its aim where it
 * has one, and the bench ends with 1 where one is missed by more than a tenth.
 */
function run(): void {
  const { values } = parseArgs({ options: { quick: { type: 'boolean' } } });
  const size = values.quick ? QUICK : FULL;
  benchVolumes(size.ladders);
  benchAnalysis(size.patients, 20);
  const few = benchAnalysis(size.patients / 10, 10).perVisit;
  const many = benchAnalysis(size.patients / 20, 40).perVisit;
  console.log(`Cost of a visit with 40 visits on record against one with 10: ${(many / few).toFixed(2)} times`);
  benchFirstLoad();
  const missed = size.clinics.flatMap((clinic) => ['sqlite', 'postgres'].filter((engine) => onItsOwn(engine, clinic)));
  sayMissed();
  if (process.exitCode || missed.length > 0) process.exitCode = 1;
}

/** Whether an aim was missed there. */
function onItsOwn(engine: string, clinic: clinics.ClinicSize): boolean {
  console.log(`\n${engine}, ${clinic.patients} patients, ${clinic.visits} visits each`);
  const given = ['--import', 'tsx', path.join(import.meta.dirname, 'clinic.ts'), '--engine', engine, '--size', JSON.stringify(clinic)];
  const ended = spawnSync(process.execPath, given, { stdio: 'inherit' });
  if (ended.status !== 0 && ended.status !== MISSED) throw new Error(`the bench on ${engine} ended with ${ended.status}`);
  return ended.status === MISSED;
}

run();
