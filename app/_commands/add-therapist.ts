import { parseArgs } from 'node:util';
import { hashPassword } from 'better-auth/crypto';
import { addPerson, openClinic, soleClinic } from '@/db/people/people';
import type { Role } from '@/db/therapist';
import { passphrase } from './passphrase';
import { runCommand } from './run-command';

const USAGE = `npm run add-therapist -- --email you@clinic.example --name "Your Name" [--role lead|therapist|read-only]
  The first person also opens the clinic: --clinic "Name" [--subtitle "garment clinic"] [--units in|cm] [--zone Europe/London]`;

const { values } = parseArgs({
  options: {
    email: { type: 'string' },
    name: { type: 'string' },
    role: { type: 'string' },
    clinic: { type: 'string' },
    subtitle: { type: 'string', default: '' },
    units: { type: 'string', default: 'in' },
    zone: { type: 'string', default: Intl.DateTimeFormat().resolvedOptions().timeZone },
  },
});

/** Adds a person who may sign in, and prints their passphrase once. The first one opens the clinic and leads it. */
async function addTherapist(): Promise<string | undefined> {
  if (!values.email?.includes('@') || !values.name?.trim()) return USAGE;
  const clinic = await soleClinic();
  const role = readRole(values.role ?? (clinic ? 'therapist' : 'lead'));
  if (!role || (!clinic && !values.clinic?.trim()) || !isZone(values.zone)) return USAGE;
  const secret = passphrase();
  const person = { email: values.email.trim(), name: values.name.trim(), role, passwordHash: await hashPassword(secret) };
  const added = clinic ? await addPerson(clinic.id, person) : await openClinic(clinicAsked(), person);
  if (added.kind === 'e-mail-taken') return `${person.email} can sign in already.`;
  process.stdout.write(`${person.name} is added as ${role}.\n\n  E-mail    ${person.email}\n  Password  ${secret}\n\n`);
  process.stdout.write('This is shown once. Write it down where only they can see it.\n');
  return undefined;
}

function clinicAsked() {
  const inches = values.units !== 'cm';
  const units = { lengthUnit: inches ? 'in' : 'cm', massUnit: inches ? 'lb' : 'kg' } as const;
  return { name: (values.clinic ?? '').trim(), subtitle: values.subtitle, timeZone: values.zone, ...units };
}

function readRole(text: string): Role | undefined {
  return text === 'lead' || text === 'therapist' || text === 'read-only' ? text : undefined;
}

function isZone(zone: string): boolean {
  try {
    return Boolean(new Intl.DateTimeFormat('en', { timeZone: zone }));
  } catch {
    return false;
  }
}

await runCommand(addTherapist);
