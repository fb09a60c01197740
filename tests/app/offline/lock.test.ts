import { parse, stringify } from 'devalue';
import { describe, expect, it, vi } from 'vitest';
import { demoClinic } from '@/app/_commands/demonstration/demo-clinic';
import { newLock, putIn, takeOut, unlock } from '@/app/_offline/lock';
import { type KeptList, notOpened } from '@/app/_offline/offline-data';
import { whatIsKnown } from '@/app/_sheet/read-sheet-data';
import type { KeptRecord } from '@/db/patients/records';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import type { Visit } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf } from '@/tests/lib/made-up-ladder';

vi.mock('server-only', () => ({}));

describe('the lock of a device', () => {
  it('takes anything in without its code, and gives it back with the code alone', async () => {
    const lock = await newLock('three plain words');
    const copy = await putIn(lock, 'list', { who: 'Mira' });
    expect(new TextDecoder('latin1').decode(copy.bytes)).not.toContain('Mira');
    const key = await unlock(lock, ' three plain words ');
    expect(key && (await takeOut(key, 'list', copy))).toEqual({ who: 'Mira' });
    expect(await unlock(lock, 'three plain word'), 'another code').toBeUndefined();
  });

  it('gives nothing back under another name, to another lock, or changed', async () => {
    const [lock, other] = [await newLock('three plain words'), await newLock('three plain words')];
    const copy = await putIn(lock, 'list', 'girths');
    const [key, otherKey] = [await unlock(lock, 'three plain words'), await unlock(other, 'three plain words')];
    if (!key || !otherKey) throw new Error('not opened');
    expect(await takeOut(key, 'sheet', copy)).toBeUndefined();
    expect(await takeOut(otherKey, 'list', copy)).toBeUndefined();
    const changed = new Uint8Array(copy.bytes.slice(0));
    changed[0] = (changed[0] ?? 0) ^ 1;
    expect(await takeOut(key, 'list', { ...copy, bytes: changed.buffer })).toBeUndefined();
  });
});

describe('a sheet that is kept', () => {
  it('comes back as the server made it, of patients with every kind of history', async () => {
    const lock = await newLock('three plain words');
    const key = await unlock(lock, 'three plain words');
    const today = calendarDay('2026-11-25');
    const { patients } = demoClinic(today);
    for (const { details, visits } of patients) {
      const record = recordOf(visits as unknown as Visit[], { ...details, pieces: [] }) as unknown as KeptRecord;
      const known = whatIsKnown(record, DEFAULT_POLICY, today, today);
      const sent = parse(stringify(known));
      const copy = await putIn(lock, 'sheet', sent);
      expect(key && (await takeOut(key, 'sheet', copy)), details.reference).toEqual(known);
    }
    expect(patients.length).toBeGreaterThan(10);
  });
});

describe('what was kept', () => {
  const list = { build: 'b1', day: calendarDay('2026-12-01'), timeZone: 'Pacific/Auckland' } as KeptList;

  it('opens on its day in the clinic’s zone, to the last minute', () => {
    expect(notOpened(list, 'b1', new Date('2026-12-01T10:59:00Z'))).toBeUndefined();
    expect(notOpened(list, 'b1', new Date('2026-12-01T11:01:00Z'))).toMatch(/of another day, 2026-12-01/);
    expect(notOpened(list, 'b1', new Date('2026-11-30T10:59:00Z'))).toMatch(/of another day/);
  });

  it('opens for the build that kept it, and says what is missing', () => {
    expect(notOpened(list, 'b2', new Date('2026-12-01T00:00:00Z'))).toMatch(/renewed/);
    expect(notOpened(undefined, 'b1', new Date())).toBe('The list did not come whole.');
  });
});
