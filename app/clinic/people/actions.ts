'use server';

import { revalidatePath } from 'next/cache';
import { appAddress } from '@/app/_auth/app-address';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { changeRole, disablePerson, dropLostFactor, enablePerson, invitePerson, type Managed, makeLink } from '@/db/people/manage-people';
import { ROLES, type Role } from '@/db/therapist';

/** Longest name of a person: it stands in every state that they write. */
const LONGEST_NAME = 120;

/** What came of it, in words; a link to hand over, shown once; what stops the form, by box; and what was typed. */
export type PeopleState = {
  readonly said?: string;
  readonly link?: string;
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: Readonly<Record<string, string>>;
};

/** Invites a person, or says beside each box why not; the link with which they join is shown once. */
export async function inviteAction(_before: PeopleState, form: FormData): Promise<PeopleState> {
  const lead = await requireActing('lead');
  const typed = postedText(form);
  const [name, email, role] = [(typed.name ?? '').trim(), (typed.email ?? '').trim(), roleIn(typed.role)];
  const errors = {
    ...(name === '' && { name: 'Type the name. It stands beside everything this person does.' }),
    ...(name.length > LONGEST_NAME && { name: `Too long: ${LONGEST_NAME} characters at most.` }),
    ...(!/^[^\s@]+@[^\s@]+$/.test(email) && { email: 'Type the e-mail they will sign in with.' }),
    ...(!role && { role: 'Choose what they may do.' }),
  };
  if (!role || Object.keys(errors).length > 0) return { errors, typed };
  const managed = await invitePerson(lead, { name, email, role });
  if (managed.kind === 'e-mail-taken') return { errors: { email: 'Somebody signs in with this e-mail already.' }, typed };
  return answer(managed, `${name} is invited as ${role}.`);
}

/** Changes what a person may do. */
export async function changeRoleAction(_before: PeopleState, form: FormData): Promise<PeopleState> {
  const lead = await requireActing('lead');
  const { personId = '', role: asked } = postedText(form);
  const role = roleIn(asked);
  if (!role) return { errors: { role: 'Choose what they may do.' }, typed: {} };
  return answer(await changeRole(lead, personId, role), `The role is ${role} now.`);
}

/** Keeps a person out from now on. */
export async function disableAction(_before: PeopleState, form: FormData): Promise<PeopleState> {
  const lead = await requireActing('lead');
  return answer(await disablePerson(lead, postedText(form).personId ?? ''), 'They cannot sign in any more, and are signed out everywhere.');
}

/** Lets a disabled person in again. */
export async function enableAction(_before: PeopleState, form: FormData): Promise<PeopleState> {
  const lead = await requireActing('lead');
  return answer(await enablePerson(lead, postedText(form).personId ?? ''), 'They can sign in again.');
}

/** Makes a one-time link to choose a password. */
export async function makeLinkAction(_before: PeopleState, form: FormData): Promise<PeopleState> {
  const lead = await requireActing('lead');
  return answer(await makeLink(lead, postedText(form).personId ?? ''), 'The link is made. Any earlier one has ended.');
}

/** Turns off a second factor that was lost. */
export async function dropFactorAction(_before: PeopleState, form: FormData): Promise<PeopleState> {
  const lead = await requireActing('lead');
  return answer(
    await dropLostFactor(lead, postedText(form).personId ?? ''),
    'Their second factor is off, and they are signed out everywhere.',
  );
}

const REFUSED: Readonly<Record<Exclude<Managed['kind'], 'done'>, string>> = {
  'not-found': 'This person is not in your clinic, or is disabled. Nothing was changed.',
  'e-mail-taken': 'Somebody signs in with this e-mail already.',
  'last-lead': 'The clinic needs a lead who can sign in. Make somebody else a lead first; nothing was changed.',
  oneself: 'You cannot disable yourself. Another lead can; nothing was changed.',
  already: 'This had been done before, or cannot be done now. Nothing was changed.',
};

async function answer(managed: Managed, said: string): Promise<PeopleState> {
  revalidatePath('/clinic/people');
  if (managed.kind !== 'done') return { errors: { form: REFUSED[managed.kind] }, typed: {} };
  const link = managed.link && `${await appAddress()}/join/${managed.link.token}`;
  return { said, errors: {}, typed: {}, ...(link && { link }) };
}

function roleIn(text: string | undefined): Role | undefined {
  return ROLES.find((role) => role === text);
}
