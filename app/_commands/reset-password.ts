import { parseArgs } from 'node:util';
import { RESET_DAYS } from '@/db/people/one-time-links';
import { resetByCommand } from '@/db/people/people';
import { runCommand } from './run-command';

const USAGE = `npm run reset-password -- --email you@clinic.example [--second-factor-lost] [--address https://clinic.example]
  Prints a link with which this person chooses a new password, once, within ${RESET_DAYS * 24} hours.`;

const { values } = parseArgs({
  options: {
    email: { type: 'string' },
    'second-factor-lost': { type: 'boolean', default: false },
    address: { type: 'string', default: process.env.APP_URL || 'http://127.0.0.1:3000' },
  },
});

/** Prints a one-time link for somebody who cannot get in; also when nobody leads who could make one on the screen. */
async function resetPassword(): Promise<string | undefined> {
  if (!values.email?.includes('@')) return USAGE;
  const link = await resetByCommand(values.email, values['second-factor-lost']);
  if (!link) return `Nobody who may sign in has the e-mail ${values.email}.`;
  process.stdout.write(`${values.address}/join/${link.token}\n\n`);
  process.stdout.write('This is shown once. It opens once; the password and every session from before end when it is used.\n');
  return undefined;
}

await runCommand(resetPassword);
