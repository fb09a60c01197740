import { describe, expect, it } from 'vitest';
import type { CopyStore } from '@/app/_draft/browser-store';
import { DeviceCopy } from '@/app/_draft/device-copy';
import { deviceKey } from '@/app/_draft/device-key';
import { metOnDevice } from '@/app/_draft/met-on-device';
import type { Sealed } from '@/app/_draft/seal';
import type { Therapist } from '@/db/therapist';
import type { DraftContent } from '@/lib/entry/entry-data';
import { firstSheet } from '@/lib/visit-form/first-sheet';

process.env.AUTH_SECRET ??= 'only for unit tests, signs nothing that is real';

const who = (id: string) => ({ id, clinicId: 'a clinic' }) as Therapist;
const KEY = deviceKey(who('one'), 'a patient', 'visit');

function content(right: Readonly<Record<string, string>>, submissionId = 'one'): DraftContent {
  const cells = Object.fromEntries(Object.entries(right).map(([row, text]) => [`right/${row}`, { text }]));
  const bare = { posture: '', measurer: '', height: '', weight: '', note: 'Joss Tamblyn', readings: [] };
  const sheets = [{ ...firstSheet('leg', 'in'), cells }];
  return { submissionId, form: { ...bare, day: '2026-11-25', time: '', heightUnit: 'in', massUnit: 'lb', sheets } };
}

/** A store in memory that can be told to fail. */
function memory() {
  const copies = new Map<string, Sealed>();
  const state = { writes: 0, fails: false };
  const store: CopyStore = {
    put: async (name, copy) => {
      state.writes += 1;
      if (state.fails) throw new Error('no room');
      copies.set(name, copy);
    },
    get: async (name) => copies.get(name),
    drop: async (name) => void copies.delete(name),
  };
  return { copies, state, store };
}

const text = (copy: Sealed | undefined) => Buffer.from(copy?.bytes ?? new ArrayBuffer(0)).toString('latin1');

describe('the copy of a draft on a device', () => {
  it('comes back to the same person in another window, and is unreadable without the key', async () => {
    const { store, copies } = memory();
    await new DeviceCopy(KEY, store, () => undefined).put({ content: content({ '38100000': '8 1/8' }), version: 3 });
    expect(copies.size).toBe(1);
    expect(text(copies.get(KEY.name))).not.toMatch(/8 1\/8|Joss|right/);
    expect(await new DeviceCopy(KEY, store, () => undefined).found()).toEqual({ content: content({ '38100000': '8 1/8' }), version: 3 });
  });

  it('is closed to another person, patient or form, even under its name, and to one that was changed', async () => {
    const { store, copies } = memory();
    await new DeviceCopy(KEY, store, () => undefined).put({ content: content({}), version: 1 });
    const others = [
      deviceKey(who('two'), 'a patient', 'visit'),
      deviceKey(who('one'), 'another', 'visit'),
      deviceKey(who('one'), 'a patient', 'correction'),
    ];
    expect(new Set([KEY, ...others].map(({ name }) => name)).size).toBe(4);
    expect(new Set([KEY, ...others].map(({ key }) => key)).size).toBe(4);
    for (const other of others) {
      const { key } = other;
      expect(await new DeviceCopy({ name: KEY.name, key }, store, () => undefined).found()).toBeUndefined();
    }
    const copy = copies.get(KEY.name);
    const bytes = new Uint8Array(copy?.bytes ?? new ArrayBuffer(1));
    bytes[0] = (bytes[0] ?? 0) ^ 1;
    expect(await new DeviceCopy(KEY, store, () => undefined).found()).toBeUndefined();
  });

  it('is nothing to a sheet when its form has another shape', async () => {
    const { store } = memory();
    const older = { ...content({}).form, sheets: [{ limb: 'leg' }] } as unknown as DraftContent['form'];
    await new DeviceCopy(KEY, store, () => undefined).put({ content: { submissionId: 'one', form: older }, version: 1 });
    expect(await new DeviceCopy(KEY, store, () => undefined).found()).toBeUndefined();
  });

  it('says that it is kept only when it is, and writes only the newest of many', async () => {
    const { store, state, copies } = memory();
    const told: boolean[] = [];
    const device = new DeviceCopy(KEY, store, (isKept) => told.push(isKept));
    for (let at = 0; at < 20; at++) void device.put({ content: content({ '38100000': String(at + 1) }), version: 0 });
    await device.put({ content: content({ '38100000': '99' }), version: 0 });
    expect(state.writes).toBeLessThanOrEqual(2);
    expect((await new DeviceCopy(KEY, store, () => undefined).found())?.content).toEqual(content({ '38100000': '99' }));
    expect(told.at(-1)).toBe(true);
    await device.drop();
    expect([copies.size, told.at(-1)]).toEqual([0, false]);
    state.fails = true;
    await device.put({ content: content({}), version: 0 });
    expect(told.at(-1)).toBe(false);
  });
});

describe('a copy met on a device', () => {
  const server = (right: Readonly<Record<string, string>>, version: number, id = 'one') => ({ content: content(right, id), version });
  const copy = server;

  it('goes on where it was typed over just that draft, or holds all of it and more', () => {
    expect(metOnDevice(copy({ '1': '8', '2': '9' }, 2), server({ '1': '8' }, 2))).toBe('goes on');
    expect(metOnDevice(copy({ '1': '8', '2': '9' }, 1), server({ '1': '8' }, 2))).toBe('goes on');
    expect(metOnDevice(copy({ '1': '8' }, 0, 'one'), server({}, 0, 'two'))).toBe('goes on');
    expect(metOnDevice(copy({ '1': '8' }, 2), server({ '1': '8' }, 3))).toBe('same');
  });

  it('is left to a person where the server went on elsewhere, or knows of no such draft any more', () => {
    expect(metOnDevice(copy({ '1': '8' }, 1), server({ '2': '9' }, 2))).toBe('apart');
    expect(metOnDevice(copy({ '1': '8', '2': '9' }, 1), server({ '1': '8' }, 1, 'two'))).toBe('apart');
    expect(metOnDevice(copy({ '1': '8' }, 2), server({}, 0, 'two'))).toBe('apart');
    const correction = (base: number) => ({ content: { ...content({ '1': String(base) }), base }, version: 0 });
    expect(metOnDevice(correction(1), correction(2))).toBe('apart');
  });
});
