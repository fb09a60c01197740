'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { changeSetting } from '@/db/clinic/clinic';
import { MEASURERS_KEY, measurerMatches } from '@/db/patients/measurers';
import { peopleOf } from '@/db/people/people';
import { MEASURER_BOUNDS, type MeasurerIs } from '@/lib/record/measurer';

/** What stops the form of one text, and everything as it was typed. */
export type MatchState = { readonly refusal: string; readonly typed: Readonly<Record<string, string>> | null };

const STALE =
  'Somebody else matched a text since the page was opened. Nothing was saved; what you chose stands here: open the page anew and compare.';

/** Says whose a text is that visits name a measurer by. No visit is changed; what was said before stays in the history. */
export async function matchMeasurerAction(_before: MatchState, form: FormData): Promise<MatchState> {
  const therapist = await requireActing('lead');
  const typed = postedText(form);
  const { digest = '', whose = '', role = '' } = typed;
  const said = role.trim();
  const refused = (refusal: string): MatchState => ({ refusal, typed });
  if (!/^[0-9a-f]{64}$/.test(digest)) return refused('Open the page anew.');
  const people = await peopleOf(therapist);
  const is: MeasurerIs | undefined =
    whose === 'outsider'
      ? { kind: 'outsider', role: said }
      : whose === 'left'
        ? { kind: 'left' }
        : people.some(({ id }) => id === whose)
          ? { kind: 'person', personId: whose }
          : undefined;
  if (!is) return refused('Choose whose it is.');
  if (is.kind === 'outsider' && said === '') return refused('Say what they are, such as carer at home. No name.');
  if (said.length > MEASURER_BOUNDS.role) return refused(`Too long: ${MEASURER_BOUNDS.role} characters at most.`);
  const others = (await measurerMatches(therapist)).filter((one) => one.digest !== digest);
  if (others.length >= MEASURER_BOUNDS.most) return refused('Too many texts are matched.');
  const change = { key: MEASURERS_KEY, value: [...others, { digest, is }], reason: 'a measurer matched', after: Number(typed.number) };
  if ((await changeSetting(therapist, change)) === 'stale') return refused(STALE);
  const page = Math.trunc(Number(typed.page)) || 1;
  redirect(page > 1 ? `/clinic/measurers?page=${page}` : '/clinic/measurers');
}
