import { onePersonOfEachClinic, peopleOf } from '@/db/people/people';
import { type Therapist, therapistWithId } from '@/db/therapist';

/** The person of that e-mail in whatever clinic this database holds: who a command acts for; undefined when there is none. */
export async function personWithEmail(email: string): Promise<Therapist | undefined> {
  for (const id of await onePersonOfEachClinic()) {
    const someone = await therapistWithId(id);
    const found = someone && (await peopleOf(someone)).find((one) => one.email === email.toLowerCase());
    if (found) return therapistWithId(found.id);
  }
  return undefined;
}
