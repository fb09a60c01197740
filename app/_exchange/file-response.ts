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
