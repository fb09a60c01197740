import { describe, expect, it, vi } from 'vitest';
import { type DraftAnswer, DraftKeeper, type DraftState } from '@/app/_draft/draft-keeper';
import type { DraftContent } from '@/lib/entry/entry-data';
import type { VisitForm } from '@/lib/visit-form/visit-form';

const content = (note: string): DraftContent => ({ submissionId: 'one', form: { note } as VisitForm });

/** A server that keeps one draft and can be told to lose its answers. */
function server() {
  let [version, kept]: [number, DraftContent | null] = [0, null];
  let down: 'up' | 'down' | 'answers lost' = 'up';
  const post = async (over: number, sent: DraftContent): Promise<DraftAnswer> => {
    if (down === 'down') return { kind: 'offline' };
    const fits = over === version;
    if (fits) [version, kept] = [version + 1, structuredClone(sent)];
    if (down === 'answers lost') return { kind: 'offline' };
    return fits ? { kind: 'kept', version } : { kind: 'newer', theirs: kept && { content: kept, version, at: '14:29' } };
  };
  return {
    post,
    state: () => ({ version, kept }),
    be: (now: typeof down) => (down = now),
    elsewhere: (note: string) => ([version, kept] = [version + 1, content(note)]),
  };
}

function keeperOf(there: ReturnType<typeof server>) {
  const states: DraftState[] = [];
  const onDevice: { content: DraftContent; version: number }[] = [];
  const keeper = new DraftKeeper(
    { content: content(''), version: 0 },
    there.post,
    (state) => states.push(state),
    () => '14:31',
    { put: (copy) => onDevice.push(copy), drop: () => (onDevice.length = 0) },
  );
  return { keeper, states, onDevice, last: () => states.at(-1) };
}

describe('the keeper of a draft', () => {
  it('sends a second after the last change, once for many changes', async () => {
    vi.useFakeTimers();
    const there = server();
    const { keeper, last } = keeperOf(there);
    for (const note of ['a', 'ab', 'abc']) keeper.change(content(note));
    await vi.advanceTimersByTimeAsync(900);
    expect(there.state().version).toBe(0);
    await vi.advanceTimersByTimeAsync(200);
    expect(there.state()).toMatchObject({ version: 1, kept: { form: { note: 'abc' } } });
    expect(last()).toEqual({ kind: 'saved', at: '14:31' });
    vi.useRealTimers();
  });

  it('tries again until the server is back, and keeps what was typed meanwhile', async () => {
    vi.useFakeTimers();
    const there = server();
    const { keeper, last } = keeperOf(there);
    there.be('down');
    keeper.change(content('a'));
    expect(await keeper.flush()).toBe(false);
    expect(last()).toEqual({ kind: 'unsaved', why: 'offline' });
    keeper.change(content('ab'));
    expect(keeper.isAhead()).toBe(true);
    there.be('up');
    await vi.advanceTimersByTimeAsync(8100);
    expect(there.state().kept?.form.note).toBe('ab');
    expect(keeper.isAhead()).toBe(false);
    vi.useRealTimers();
  });

  it('knows its own draft again when answers were lost on the way, however many', async () => {
    const there = server();
    const { keeper, last } = keeperOf(there);
    there.be('answers lost');
    for (const note of ['a', 'ab', 'abc']) {
      keeper.change(content(note));
      await keeper.flush();
    }
    there.be('up');
    keeper.change(content('abcd'));
    expect(await keeper.flush()).toBe(true);
    expect(there.state()).toMatchObject({ version: 2, kept: { form: { note: 'abcd' } } });
    expect(last()).toEqual({ kind: 'saved', at: '14:31' });
    keeper.close();
  });

  it('stops at somebody else’s newer draft until a person has chosen; nothing is overwritten by itself', async () => {
    const there = server();
    const { keeper, last } = keeperOf(there);
    there.elsewhere('theirs');
    keeper.change(content('mine'));
    expect(await keeper.flush()).toBe(false);
    expect(last()).toMatchObject({ kind: 'newer', theirs: { content: { form: { note: 'theirs' } } } });
    keeper.change(content('mine too'));
    expect(await keeper.flush()).toBe(false);
    expect(there.state().kept?.form.note).toBe('theirs');
    keeper.overwrite(1);
    await vi.waitFor(() => expect(there.state().kept?.form.note).toBe('mine too'));
    keeper.close();
  });

  it('leaves a copy on the device from the first change until the server has all of it, and while a choice is open', async () => {
    const there = server();
    const { keeper, onDevice } = keeperOf(there);
    there.be('down');
    keeper.change(content('a'));
    expect(onDevice.at(-1)).toEqual({ content: content('a'), version: 0 });
    await keeper.flush();
    expect(onDevice).not.toEqual([]);
    there.be('up');
    await keeper.flush();
    expect(onDevice).toEqual([]);
    there.elsewhere('theirs');
    keeper.change(content('mine'));
    await keeper.flush();
    keeper.change(content('mine too'));
    expect(onDevice.at(-1)).toEqual({ content: content('mine too'), version: 1 });
    expect(keeper.isAhead()).toBe(true);
    await keeper.close();
    expect(onDevice).toEqual([]);
  });

  it('is told of the same content on the server as kept, not as somebody else’s', async () => {
    const there = server();
    const { keeper, states } = keeperOf(there);
    there.elsewhere('the same');
    keeper.change(content('the same'));
    expect(await keeper.flush()).toBe(true);
    expect(states.map(({ kind }) => kind)).toEqual(['saved']);
    await keeper.close();
  });
});
