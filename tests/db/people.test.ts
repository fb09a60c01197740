import { eq } from 'drizzle-orm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Managed } from '@/db/people/manage-people';
import type { Therapist } from '@/db/therapist';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';

const FACTOR = { sealedSecret: 'sealed', lastStep: 7, recoveryCodeHashes: ['one', 'two', 'three'] };
const CHOSEN = { passwordHash: 'another hash', needsSecondFactor: false };
const HOUR = 3_600_000;

describe.each(ENGINES)('a clinic’s people on %s', (engine) => {
  let on: ClinicOn;
  let count = 0;

  beforeAll(async () => {
    on = await clinicOn(engine);
  });
  afterAll(() => on.close());

  /** Somebody new with a password of the clinic that `on.therapist` leads. */
  async function somebody(role: 'lead' | 'therapist' = 'therapist'): Promise<Therapist> {
    const person = { name: 'K. Dunmore', role, email: `person${++count}@harbour.example`, passwordHash: 'a hash' } as const;
    const added = await on.db.people.addPerson(on.therapist.clinicId, person);
    const found = added.kind === 'added' ? await on.db.therapist.therapistWithId(added.id) : undefined;
    if (!found) throw new Error('nobody was added');
    return found;
  }

  async function session(person: Therapist, createdAt: Date, id = crypto.randomUUID()): Promise<string> {
    const database = await on.db.client.getDatabase();
    const times = { createdAt, updatedAt: createdAt, expiresAt: new Date(createdAt.getTime() + 12 * HOUR) };
    await database.insert(on.db.schema.session).values({ id, userId: person.id, token: id, ...times });
    return id;
  }

  const listed = async (person: { readonly id: string }) => (await on.db.people.peopleOf(on.therapist)).find(({ id }) => id === person.id);
  const tokenOf = (managed: Managed) => (managed.kind === 'done' && managed.link ? managed.link.token : '');

  it('invites: listed at once, without a password; the link opens once, and for seven days', async () => {
    const at = new Date('2026-11-25T10:00:00Z');
    const invited = { name: 'M. Quist', email: 'M.Quist@harbour.example', role: 'therapist' } as const;
    const token = tokenOf(await on.db.manage.invitePerson(on.therapist, invited, at));
    expect(token).toMatch(/^[\w-]{43}$/);
    const { holderOf, takeLink } = on.db.oneTimeLinks;
    const holder = await holderOf(token, new Date(at.getTime() + 167 * HOUR));
    expect(holder).toMatchObject({ name: 'M. Quist', email: 'm.quist@harbour.example', hasPassword: false, clinicName: 'Harbour Lane' });
    expect(await listed({ id: holder?.id ?? '' })).toMatchObject({ state: 'invited', role: 'therapist', lastSignedInAt: null });
    expect(await holderOf(token, new Date(at.getTime() + 169 * HOUR))).toBeUndefined();
    const later = new Date(at.getTime() + HOUR);
    const taken = await Promise.all(Array.from({ length: 5 }, () => takeLink(token, CHOSEN, later)));
    expect(taken.filter(Boolean)).toHaveLength(1);
    expect(await holderOf(token, later)).toBeUndefined();
    expect(await listed({ id: holder?.id ?? '' })).toMatchObject({ state: 'active' });
    expect(await on.db.manage.invitePerson(on.therapist, { ...invited, email: 'm.quist@harbour.example' })).toEqual({
      kind: 'e-mail-taken',
    });
  });

  it('keeps of a link its hash only', async () => {
    const token = tokenOf(await on.db.manage.makeLink(on.therapist, (await somebody()).id));
    const database = await on.db.client.getDatabase();
    const rows = await database.select().from(on.db.schema.oneTimeLink);
    expect(rows.length).toBeGreaterThan(0);
    expect(JSON.stringify(rows)).not.toContain(token);
  });

  it('a newer link takes the place of an earlier one, and using it ends every session of its person', async () => {
    const person = await somebody();
    const before = new Date(Date.now() - 1000);
    const first = tokenOf(await on.db.manage.makeLink(on.therapist, person.id));
    const second = tokenOf(await on.db.manage.makeLink(on.therapist, person.id));
    expect([await on.db.oneTimeLinks.takeLink(first, CHOSEN), await on.db.oneTimeLinks.takeLink(second, CHOSEN)]).toEqual([false, true]);
    expect(await on.db.therapist.therapistWithId(person.id, before)).toBeUndefined();
    expect(await on.db.therapist.therapistWithId(person.id, new Date(Date.now() + 1000))).toBeDefined();
  });

  it('disables: nobody with that id is signed in any more, their link ends, and enabling brings no old session back', async () => {
    const person = await somebody();
    const before = new Date(Date.now() - 1000);
    const token = tokenOf(await on.db.manage.makeLink(on.therapist, person.id));
    expect(await on.db.manage.disablePerson(on.therapist, person.id, new Date(Date.now() + 5))).toEqual({ kind: 'done' });
    expect(await on.db.therapist.therapistWithId(person.id)).toBeUndefined();
    expect(await on.db.oneTimeLinks.holderOf(token)).toBeUndefined();
    expect(await on.db.manage.makeLink(on.therapist, person.id)).toEqual({ kind: 'not-found' });
    expect(await listed(person)).toMatchObject({ state: 'disabled' });
    expect(await on.db.manage.enablePerson(on.therapist, person.id)).toEqual({ kind: 'done' });
    expect(await on.db.therapist.therapistWithId(person.id, before)).toBeUndefined();
    expect(await on.db.therapist.therapistWithId(person.id)).toBeDefined();
    expect(await on.db.oneTimeLinks.holderOf(token)).toBeUndefined();
  });

  it('keeps an active lead, whoever asks and however fast: two leads who demote each other at the same moment leave one', async () => {
    const { changeRole, disablePerson, invitePerson } = on.db.manage;
    const lead = on.therapist;
    await invitePerson(lead, { name: 'Not yet', email: `notyet${++count}@harbour.example`, role: 'lead' });
    expect(await disablePerson(lead, lead.id)).toEqual({ kind: 'oneself' });
    expect(await changeRole(lead, lead.id, 'therapist')).toEqual({ kind: 'last-lead' });
    const other = await somebody('lead');
    const ended = await Promise.all([changeRole(lead, other.id, 'therapist'), changeRole(other, lead.id, 'therapist')]);
    expect(ended.map(({ kind }) => kind).sort()).toEqual(['done', 'last-lead']);
    const stays = (await listed(lead))?.role === 'lead' ? lead : other;
    expect(await changeRole(stays, lead.id, 'lead')).toEqual({ kind: stays === lead ? 'already' : 'done' });
    expect(await disablePerson(lead, other.id)).toEqual({ kind: 'done' });
    expect(await changeRole(lead, lead.id, 'read-only')).toEqual({ kind: 'last-lead' });
  });

  it('turns off a lost second factor, and with it a password too short to stand alone', async () => {
    const [long, short] = [await somebody(), await somebody()];
    await on.db.factors.turnFactorOn(long, FACTOR);
    const token = tokenOf(await on.db.manage.makeLink(on.therapist, short.id));
    await on.db.oneTimeLinks.takeLink(token, { ...CHOSEN, needsSecondFactor: true, factor: FACTOR });
    expect([(await listed(long))?.hasSecondFactor, (await listed(short))?.hasSecondFactor]).toEqual([true, true]);
    expect(await on.db.factors.turnFactorOff(short)).toBe(false);
    expect(await on.db.manage.dropLostFactor(on.therapist, long.id)).toEqual({ kind: 'done' });
    expect(await on.db.manage.dropLostFactor(on.therapist, long.id)).toEqual({ kind: 'already' });
    const fresh = tokenOf(await on.db.manage.dropLostFactor(on.therapist, short.id));
    expect(await listed(long)).toMatchObject({ state: 'active', hasSecondFactor: false });
    expect(await listed(short)).toMatchObject({ state: 'invited', hasSecondFactor: false });
    expect(await on.db.oneTimeLinks.holderOf(fresh)).toMatchObject({ id: short.id });
  });

  it('no lead reaches a person of another clinic, and nobody but a lead manages people', async () => {
    const { changeRole, disablePerson, enablePerson, makeLink, dropLostFactor } = on.db.manage;
    const person = await somebody();
    const before = await listed(person);
    expect(await changeRole(on.stranger, person.id, 'lead')).toEqual({ kind: 'not-found' });
    expect(await disablePerson(on.stranger, person.id)).toEqual({ kind: 'not-found' });
    expect(await enablePerson(on.stranger, person.id)).toEqual({ kind: 'already' });
    expect(await makeLink(on.stranger, person.id)).toEqual({ kind: 'not-found' });
    expect(await dropLostFactor(on.stranger, person.id)).toEqual({ kind: 'not-found' });
    expect(await listed(person)).toEqual(before);
    for (const no of [person, on.reader]) await expect(disablePerson(no, on.therapist.id)).rejects.toThrow();
  });

  it('each act leaves its row in the audit', async () => {
    const person = await somebody();
    const { changeRole, disablePerson, enablePerson, makeLink, dropLostFactor } = on.db.manage;
    await on.db.factors.turnFactorOn(person, FACTOR);
    await changeRole(on.therapist, person.id, 'read-only');
    await makeLink(on.therapist, person.id);
    await dropLostFactor(on.therapist, person.id);
    await disablePerson(on.therapist, person.id);
    await enablePerson(on.therapist, person.id);
    const deeds = await on.db.audit.auditEntries(on.therapist, 20, person.id);
    expect(deeds.map(({ action }) => action).sort()).toEqual(
      [
        'person added',
        'second factor turned on',
        'role changed',
        'one-time link made',
        'lost second factor turned off',
        'person disabled',
        'person enabled',
      ].sort(),
    );
  });

  it('a password changed ends every other session; a session is ended by its own person only', async () => {
    const [person, other] = [await somebody(), await somebody()];
    const at = new Date();
    const start = new Date(at.getTime() - 60_000);
    const [own, second] = [await session(person, start), await session(person, start)];
    expect(await on.db.sessions.endSession(other, own)).toBe(false);
    expect((await on.db.sessions.sessionsOf(person, at)).map(({ id }) => id).sort()).toEqual([own, second].sort());
    await on.db.ownAccount.changePassword(person, CHOSEN, own, at);
    expect((await on.db.sessions.sessionsOf(person, at)).map(({ id }) => id)).toEqual([own]);
    expect(await on.db.therapist.therapistWithId(person.id, start)).toBeUndefined();
    expect(await on.db.therapist.therapistWithId(person.id, at)).toBeDefined();
  });

  it('use of a session is written once a minute', async () => {
    const person = await somebody();
    const start = new Date('2026-11-25T10:00:00Z');
    const id = await session(person, start);
    const database = await on.db.client.getDatabase();
    const usedAt = async (seconds: number) => {
      await on.db.sessions.touchSession(id, new Date(start.getTime() + seconds * 1000));
      const [row] = await database.select().from(on.db.schema.session).where(eq(on.db.schema.session.id, id));
      return ((row?.lastUsedAt?.getTime() ?? 0) - start.getTime()) / 1000;
    };
    expect([await usedAt(0), await usedAt(59), await usedAt(61), await usedAt(90)]).toEqual([0, 0, 61, 61]);
  });

  it('of forty tries at the same moment at most eight are let through, and an hour later one more', async () => {
    const at = new Date('2026-11-25T10:00:00Z');
    const { countTry, OF_ACCOUNT_AND_CALLER } = on.db.tries;
    const tries = await Promise.all(Array.from({ length: 40 }, () => countTry('somebody', OF_ACCOUNT_AND_CALLER, at)));
    expect(tries.filter(({ kind }) => kind === 'counted').length).toBeLessThanOrEqual(8);
    expect(await countTry('somebody', OF_ACCOUNT_AND_CALLER, new Date(at.getTime() + HOUR))).toMatchObject({ kind: 'counted' });
  });
});
