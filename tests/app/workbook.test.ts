import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { looksLikeWorkbook, readWorkbookSheet } from '@/app/_exchange/workbook';

const MOST = 1_000_000;
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';

type SheetOf = { readonly name: string; readonly rows: readonly string[]; readonly hidden?: boolean };

/** A workbook of the least parts that ECMA-376 asks for: rows are cells as XML, `date1904` is the other epoch. */
function workbook(sheets: readonly SheetOf[], date1904 = false, more: Record<string, Uint8Array> = {}): Uint8Array {
  const list = sheets.map(
    ({ name, hidden }, index) => `<sheet name="${name}" sheetId="${index + 1}" ${hidden ? 'state="hidden" ' : ''}r:id="rId${index + 1}"/>`,
  );
  const relation = (id: number, type: string, target: string) =>
    `<Relationship Id="rId${id}" Type="${RELATIONS}/${type}" Target="${target}"/>`;
  const relations = (inner: string) =>
    `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${inner}</Relationships>`;
  return zipSync({
    '[Content_Types].xml': strToU8(
      '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/></Types>',
    ),
    '_rels/.rels': strToU8(relations(relation(1, 'officeDocument', 'xl/workbook.xml'))),
    'xl/workbook.xml': strToU8(
      `<workbook xmlns="${MAIN}" xmlns:r="${RELATIONS}"><workbookPr${date1904 ? ' date1904="1"' : ''}/><sheets>${list.join('')}</sheets></workbook>`,
    ),
    'xl/_rels/workbook.xml.rels': strToU8(
      relations(
        sheets.map((_, index) => relation(index + 1, 'worksheet', `worksheets/sheet${index + 1}.xml`)).join('') +
          relation(99, 'styles', 'styles.xml'),
      ),
    ),
    'xl/styles.xml': strToU8(
      `<styleSheet xmlns="${MAIN}"><cellXfs count="3"><xf numFmtId="0"/><xf numFmtId="14" applyNumberFormat="1"/><xf numFmtId="20" applyNumberFormat="1"/></cellXfs></styleSheet>`,
    ),
    ...Object.fromEntries(
      sheets.map(({ rows }, index) => [
        `xl/worksheets/sheet${index + 1}.xml`,
        strToU8(
          `<worksheet xmlns="${MAIN}"><sheetData>${rows.map((cells, row) => `<row r="${row + 1}">${cells}</row>`).join('')}</sheetData></worksheet>`,
        ),
      ]),
    ),
    ...more,
  });
}

const words = (at: string, text: string) => `<c r="${at}" t="inlineStr"><is><t>${text}</t></is></c>`;
const figure = (at: string, value: number, style = 0) => `<c r="${at}" s="${style}"><v>${value}</v></c>`;

/** 8 May 2026 is day 46150 of the 1900 epoch (1 January 1900 is day 1, with the leap day of 1900 that never was), 44688 of that of 1904. */
const CHART = (serial: number) => ({
  name: 'legs',
  rows: [
    words('A1', 'day') + words('B1', 'time') + words('C1', '0') + words('D1', '8'),
    figure('A2', serial, 1) +
      figure('B2', 0.5902777777777778, 2) +
      words('C2', '17 3/8') +
      `<c r="D2"><f>C2+1</f><v>18.499999999999996</v></c>`,
  ],
});

describe('a workbook', () => {
  it.each([
    ['1900', 46_150, false],
    ['1904', 44_688, true],
  ])(
    'gives its cells as they are meant, epoch %s: fractions as text, days, times, the last value of a formula',
    async (_epoch, serial, date1904) => {
      const read = await readWorkbookSheet(workbook([CHART(serial)], date1904), '', MOST);
      expect(read).toEqual({
        kind: 'read',
        text: 'day\ttime\t0\t8\n2026-05-08\t14:10\t17 3/8\t18.5',
        said: ['1 formula was read by the value it last showed.'],
      });
    },
  );

  it('with several sheets of figures asks which; a hidden one is left out and said', async () => {
    const two = workbook([CHART(46_150), { ...CHART(46_150), name: 'arms' }, { ...CHART(46_150), name: 'old', hidden: true }]);
    expect(await readWorkbookSheet(two, '', MOST)).toMatchObject({ kind: 'refused', reason: expect.stringContaining('“legs”, “arms”') });
    expect(await readWorkbookSheet(two, 'arms', MOST)).toMatchObject({
      kind: 'read',
      said: [expect.any(String), 'Hidden sheets were left out: old.'],
    });
    expect(await readWorkbookSheet(two, 'old', MOST)).toMatchObject({ kind: 'refused' });
  });

  it('is refused with what to do: macros, old and other forms, nothing in it, more inside than is taken', async () => {
    const reasons = await Promise.all([
      readWorkbookSheet(workbook([CHART(46_150)], false, { 'xl/vbaProject.bin': strToU8('x') }), '', MOST),
      readWorkbookSheet(new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0, 0]), '', MOST),
      readWorkbookSheet(
        zipSync({ mimetype: strToU8('application/vnd.oasis.opendocument.spreadsheet'), 'content.xml': strToU8('<x/>') }),
        '',
        MOST,
      ),
      readWorkbookSheet(workbook([{ name: 'empty', rows: [] }]), '', MOST),
      readWorkbookSheet(workbook([CHART(46_150)], false, { 'xl/media/a.xml': new Uint8Array(MOST) }), '', MOST),
    ]);
    expect(reasons.map((one) => (one.kind === 'refused' ? one.reason : 'read'))).toEqual([
      expect.stringContaining('macros'),
      expect.stringContaining('old binary workbook'),
      expect.stringContaining('another form'),
      'No sheet of this workbook has anything in it.',
      expect.stringContaining('larger than it says'),
    ]);
  });

  it('is told from a packed set of tables', () => {
    expect(looksLikeWorkbook(workbook([CHART(46_150)]))).toBe(true);
    expect(looksLikeWorkbook(zipSync({ 'subject.csv': strToU8('a,b'), 'set-metadata.json': strToU8('{}') }))).toBe(false);
  });
});
