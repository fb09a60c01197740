import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { decodeText } from '@/app/_exchange/decode-text';
import { MOST_BYTES, uploadFrom } from '@/app/_exchange/upload';

/** Bytes worked out by hand from the code charts: WHATWG Encoding Standard, index windows-1252; Unicode, UTF-16. */
const ENCODED: readonly [string, readonly number[], string][] = [
  ['UTF-8', [0xc2, 0xbd], '½'],
  ['UTF-8 with its mark', [0xef, 0xbb, 0xbf, 0xe2, 0x80, 0x9d], '”'],
  ['Windows-1252', [0x31, 0x30, 0xbd], '10½'],
  ['Windows-1252, its own part', [0x93, 0x37, 0xbe, 0x94], '“7¾”'],
  ['UTF-16, small end first', [0xff, 0xfe, 0x37, 0x00, 0xbe, 0x00], '7¾'],
  ['UTF-16, big end first', [0xfe, 0xff, 0x00, 0x37, 0x00, 0xbe], '7¾'],
];

describe('the text of a file', () => {
  it.each(ENCODED)('is read from %s', (_name, bytes, text) => {
    expect(decodeText(Uint8Array.from(bytes))).toBe(text);
  });

  it('is none when it holds null characters', () => {
    expect(decodeText(Uint8Array.from([0x31, 0x00, 0x32]))).toBeUndefined();
  });
});

describe('a file that is brought in', () => {
  it.each([
    ['nothing', new Uint8Array(), 'empty'],
    ['blanks', strToU8(' \n\n'), 'empty'],
    ['null characters', Uint8Array.from([1, 0, 2]), 'not text'],
    ['one byte too many', new Uint8Array(MOST_BYTES + 1).fill(49), 'too large'],
    ['a pack that is none', strToU8('PK…'), 'not a set'],
    ['a small pack of much', zipSync({ 'rung.csv': new Uint8Array(MOST_BYTES + 1) }), 'too large'],
    ['a pack of many files', zipSync(Object.fromEntries(Array.from({ length: 60 }, (_, n) => [`${n}.csv`, strToU8('a')]))), 'too large'],
    ['a pack of pictures', zipSync({ 'a.png': Uint8Array.from([0x89, 0x50, 0, 0]) }), 'not text'],
  ])('is not taken when it is %s', async (_name, bytes, why) => {
    expect(await uploadFrom('file', bytes)).toBe(why);
  });

  it('is known by what it holds, not by its name', async () => {
    expect(await uploadFrom('chart.zip', strToU8('place,2026-03-02\n0,21\n'))).toMatchObject({ form: 'spreadsheet' });
    expect(await uploadFrom('chart.csv', strToU8('{"resourceType":"Bundle"}'))).toMatchObject({ form: 'bundle' });
    const packed = await uploadFrom('chart.csv', zipSync({ 'set/subject.csv': strToU8('subject_id\r\n') }));
    expect(packed).toMatchObject({ form: 'set', text: '{"subject.csv":"subject_id\\r\\n"}' });
  });

  it('that lies about its sizes is counted as it comes out, in slices that let others have their turn', async () => {
    const pack = zipSync({ 'rung.csv': new Uint8Array(64 * 1024 * 1024) });
    const view = new DataView(pack.buffer, pack.byteOffset, pack.byteLength);
    for (let at = 0; at + 46 < pack.length; at++) {
      const sign = view.getUint32(at, true);
      if (sign === 0x04034b50) view.setUint32(at + 22, 10, true);
      if (sign === 0x02014b50) view.setUint32(at + 24, 10, true);
    }
    let longest = 0;
    let before = performance.now();
    const ticks = setInterval(() => {
      longest = Math.max(longest, performance.now() - before);
      before = performance.now();
    }, 1);
    const grown = process.memoryUsage().rss;
    expect(await uploadFrom('set.zip', pack)).toBe('too large');
    clearInterval(ticks);
    const mb = (process.memoryUsage().rss - grown) / 1024 / 1024;
    process.stdout.write(
      `a pack of ${(pack.length / 1024).toFixed(0)} kB that holds 64 MB and says 10 bytes: refused, +${mb.toFixed(0)} MB, longest wait ${longest.toFixed(0)} ms\n`,
    );
    expect(mb).toBeLessThan(150);
  });
});
