import { shareCookie } from '@/app/_family/share-cookie';
import { openSharedPage } from '@/db/documents/share-links';
import { troubleOf } from '@/db/sql/storage-trouble';

const LATER =
  'The page cannot be opened at the moment. Please try again in a minute.\nLa hoja no puede abrirse en este momento. Por favor, inténtelo de nuevo en un minuto.\n';

/**
 * Exchanges the token of a link for a cookie and goes on to the page, so that the token stands in no history entry, referrer or screenshot
 * of the page (headers: next.config.js). An unknown, expired or withdrawn link goes on just the same and finds nothing. While nothing can be
 * written, no exchange is made: the link is as good as before, and the answer asks to come back.
 */
export async function GET(_request: Request, { params }: { params: Promise<{ token: string }> }): Promise<Response> {
  const { token } = await params;
  let cookie: string | undefined;
  try {
    cookie = /^[\w-]{43}$/.test(token) ? await openSharedPage(token) : undefined;
  } catch (error) {
    if (!troubleOf(error)) throw error;
    return new Response(LATER, { status: 503, headers: { 'Content-Type': 'text/plain; charset=utf-8', 'Retry-After': '60' } });
  }
  const { name, secure } = shareCookie();
  const attributes = `Path=/share; HttpOnly; SameSite=Lax${secure ? '; Secure' : ''}`;
  const kept = cookie ? `${name}=${cookie}; ${attributes}; Max-Age=1209600` : `${name}=; ${attributes}; Max-Age=0`;
  return new Response(null, { status: 303, headers: { Location: '/share', 'Set-Cookie': kept } });
}
