import fs from 'node:fs';
import { personWithEmail } from '@/app/_commands/person-with-email';
import { closeDatabase } from '@/db/client';
import { approveFamilyPage } from '@/db/documents/family-pages';
import { linksOf, openLink } from '@/db/documents/share-links';
import { familyPage } from '@/lib/summary/family/family-page';
import { calendarDay } from '@/lib/units/calendar-day';
import { FAMILY_TEXTS } from '@/tests/lib/summary/family-texts';
import { PEOPLE } from './people';

/** For a test that does not load the database itself: a visit's id on the input; approves a made-up page of it and prints a link to it. */
const visitId = fs.readFileSync(0, 'utf8');
const lead = await personWithEmail(PEOPLE.lead.email);
if (!lead) throw new Error('the lead is not there');
const day = calendarDay('2026-10-14');
const person = { reader: 'family', name: 'Mira', limb: 'leg', side: 'right' } as const;
const said = { language: 'en', person, change: 'same', right: 'yes', why: null, hours: 23, steps: [], note: '' } as const;
const signed = { by: PEOPLE.lead.name, day };
const page = familyPage(said, { day, unit: 'in', places: 3, taller: null, outlines: null }, FAMILY_TEXTS, 'Harbour Lane', signed);
const documentId = await approveFamilyPage(lead, { visitId, submissionId: crypto.randomUUID(), page });
if (!documentId) throw new Error('the page was not approved');
const token = await openLink(lead, documentId);
const [link] = await linksOf(lead, documentId);
process.stdout.write(JSON.stringify({ documentId, token, linkId: link?.linkId }));
await closeDatabase();
