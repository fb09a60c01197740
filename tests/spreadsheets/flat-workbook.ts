/** A cell of a workbook to be made: words, a figure, a day, or words over several columns or rows. */
export type MadeCell =
  | string
  | number
  | { readonly day: string }
  | { readonly text: string; readonly across?: number; readonly down?: number };

const NAMES = ['office', 'table', 'text', 'style', 'number'].map(
  (name) => `xmlns:${name}="urn:oasis:names:tc:opendocument:xmlns:${name === 'number' ? 'datastyle' : name}:1.0"`,
);

/**
 * A sheet as flat OpenDocument XML, for a spreadsheet program to make its own workbook of: merged cells are merged, days are days.
 *
 * Source: OASIS OpenDocument 1.2, part 1, sections 3.1.2 and 9.1.
 */
export function flatWorkbook(rows: readonly (readonly MadeCell[])[], sheet = 'Sheet1'): string {
  const body = rows.map((cells) => `<table:table-row>${cells.map(cellXml).join('')}</table:table-row>`).join('\n');
  return `<?xml version="1.0" encoding="UTF-8"?>
<office:document ${NAMES.join(' ')} office:version="1.2" office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
<office:automatic-styles>
<number:date-style style:name="D"><number:day number:style="long"/><number:text>/</number:text><number:month number:style="long"/><number:text>/</number:text><number:year number:style="long"/></number:date-style>
<style:style style:name="day" style:family="table-cell" style:data-style-name="D"/>
</office:automatic-styles>
<office:body><office:spreadsheet><table:table table:name="${sheet}">
${body}
</table:table></office:spreadsheet></office:body></office:document>
`;
}

function cellXml(cell: MadeCell): string {
  if (cell === '') return '<table:table-cell/>';
  if (typeof cell === 'number') return `<table:table-cell office:value-type="float" office:value="${cell}"/>`;
  if (typeof cell === 'string') return wordsXml(cell, '');
  if ('day' in cell) return `<table:table-cell table:style-name="day" office:value-type="date" office:date-value="${cell.day}"/>`;
  const { text, across = 1, down = 1 } = cell;
  const covered = across > 1 ? `<table:covered-table-cell table:number-columns-repeated="${across - 1}"/>` : '';
  return wordsXml(text, ` table:number-columns-spanned="${across}" table:number-rows-spanned="${down}"`) + covered;
}

function wordsXml(text: string, spans: string): string {
  const escaped = text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
  return `<table:table-cell office:value-type="string"${spans}><text:p>${escaped}</text:p></table:table-cell>`;
}
