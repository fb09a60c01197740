import type { SetWorkbook } from './set-workbook';

/** A file to be kept by whoever asked for it, never by a cache on the way. `name` is letters, figures, dots and dashes. */
export function fileResponse(body: BodyInit, name: string, type: string): Response {
  return new Response(body, {
    headers: {
      'Content-Type': type,
      'Content-Disposition': `attachment; filename="${name.replace(/[^\w.-]+/g, '-')}"`,
      'Cache-Control': 'no-store',
    },
  });
}

/** A set as a workbook, or the sentence why it is none. */
export function workbookResponse(made: SetWorkbook, name: string): Response {
  if (made.kind === 'refused') return new Response(made.reason, { status: 413, headers: { 'Cache-Control': 'no-store' } });
  return fileResponse(made.bytes, name, 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet');
}
