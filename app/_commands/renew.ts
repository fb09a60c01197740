import { todayIn } from '@/app/_auth/today';
import { getDatabase } from '@/db/client';
import { clinicOf } from '@/db/clinic/clinic';
import { onePersonOfEachClinic } from '@/db/people/people';
import { therapistWithId } from '@/db/therapist';
import { mendSearch } from '@/db/upkeep/check-search';
import { refreshStale, workAim } from '@/db/worklist/refresh-work';
import { staleCount } from '@/db/worklist/stale-work';
import { readArguments } from './read-arguments';
import { runCommand } from './run-command';

const USAGE = `npm run renew
  Makes every clinic’s worklist and dates ready for today, and puts right what search looks through. Takes no options.`;

readArguments(USAGE, {});

/**
 * Makes every clinic's worklist and dates ready for today: for the early morning, or after a change of limits or rules. What search looks
 * through is put right first, where it lacks or holds what it should not (`verify-data` says so).
 *
 * Can be stopped and started again, and run beside the program or beside itself: nobody is looked at twice.
 */
async function renew(): Promise<undefined> {
  const parts = await mendSearch(await getDatabase());
  if (parts > 0) process.stdout.write(`Search: ${parts} ${parts === 1 ? 'part' : 'parts'} put right.\n`);
  for (const id of await onePersonOfEachClinic()) {
    const therapist = await therapistWithId(id);
    if (!therapist) continue;
    const { name, timeZone } = await clinicOf(therapist);
    const today = todayIn(timeZone);
    const { behind, patients } = await staleCount(therapist, await workAim(therapist, today));
    process.stdout.write(`${name}: ${behind} of ${patients} patients are to be looked at for ${today}.\n`);
    let told = 0;
    const renewed = await refreshStale(therapist, today, {
      done: (count) => {
        if (count - told < 500) return;
        told = count;
        process.stdout.write(`  ${count} of ${behind}\n`);
      },
    });
    process.stdout.write(`${name}: ${renewed} ${renewed === 1 ? 'patient' : 'patients'} looked at.\n`);
  }
}

await runCommand(renew);
