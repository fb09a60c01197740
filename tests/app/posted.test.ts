import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { postedText } from '@/app/_form/posted';
import { troubleWords } from '@/app/_shell/trouble-words';

const APP = path.resolve(import.meta.dirname, '../../app');

function formOf(boxes: Readonly<Record<string, string>>): FormData {
  const form = new FormData();
  for (const [box, value] of Object.entries(boxes)) form.append(box, value);
  return form;
}

function digestOf(run: () => unknown): string | undefined {
  try {
    run();
  } catch (error) {
    return (error as { digest?: string }).digest;
  }
  return undefined;
}

describe('a posted form', () => {
  it('gives its boxes as typed', () => {
    expect(postedText(formOf({ piece: '3', words: 'a\nb' }))).toEqual({ piece: '3', words: 'a\nb' });
    expect(postedText(formOf({ piece: ' 3 ' }))).toEqual({ piece: ' 3 ' });
  });

  it.each([
    ['piece', 60],
    ['words', 4000],
    ['a box nobody has named', 4000],
  ])('is refused when “%s” holds more than %d characters, and the page says which box', (box, most) => {
    for (const read of [
      () => postedText(formOf({ [box]: 'x'.repeat(most + 1) })),
      () => postedText(formOf({ [box]: 'x'.repeat(900_000) })),
    ]) {
      const words = troubleWords(digestOf(read));
      expect(words).toContain(`“${box}” holds more than ${most} characters`);
    }
    expect(digestOf(() => postedText(formOf({ [box]: 'x'.repeat(most) })))).toBeUndefined();
  });

  it.each(['Mira\0', 'bell \u0007'])('is refused when a box holds no text: %j', (value) => {
    expect(troubleWords(digestOf(() => postedText(formOf({ name: value }))))).toContain('“name” holds a character that is none');
    expect(digestOf(() => postedText(formOf({ name: 'пять 🧵\r\nsecond\tline' })))).toBeUndefined();
  });

  it('with hundreds of boxes is refused', () => {
    const many = formOf(Object.fromEntries(Array.from({ length: 501 }, (_, number) => [`box${number}`, 'x'])));
    expect(digestOf(() => postedText(many))).toBe('too-long/boxes/500');
  });

  it('is read in one place: no server code looks into a form by itself', () => {
    const files = fs.readdirSync(APP, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.ts'));
    const own = files.filter(
      (name) => !name.endsWith('_form/posted.ts') && /\bform\??\.get\('/.test(fs.readFileSync(path.join(APP, name), 'utf8')),
    );
    expect(own).toEqual(['clinic/exchange/upload/route.ts']);
  });
});
