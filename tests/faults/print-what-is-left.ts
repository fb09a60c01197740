import fs from 'node:fs';
import { closeDatabase, getDatabase } from '@/db/client';
import { whatIsLeft } from './what-is-left';

/** For a test that does not load the database itself: acknowledged submissions on the input as JSON, what is left of them on the output. */
const acknowledged = JSON.parse(fs.readFileSync(0, 'utf8')) as string[];
process.stdout.write(JSON.stringify(await whatIsLeft(await getDatabase(), acknowledged)));
await closeDatabase();
