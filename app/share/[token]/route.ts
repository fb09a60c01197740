import { shareCookie } from '@/app/_family/share-cookie';
import { openSharedPage } from '@/db/documents/share-links';

/**
 * Exchanges the token of a link for a cookie and goes on to the page, so that the token stands in no history entry, referrer or screenshot
 * of the page (headers: next.config.js). An unknown, expired or withdrawn link goes on just the same and finds nothing.
 */
export async function GET(_request: Request, { params }: { params: Promise<{ token: string }> }): Promise<Response> {
  const { token } = await params;
  const cookie = /^[\w-]{43}$/.test(token) ? await openSharedPage(token) : undefined;
  const { name, secure } = shareCookie();
  const attributes = `Path=/share; HttpOnly; SameSite=Lax${secure ? '; Secure' : ''}`;
  const kept = cookie ? `${name}=${cookie}; ${attributes}; Max-Age=1209600` : `${name}=; ${attributes}; Max-Age=0`;
  return new Response(null, { status: 303, headers: { Location: '/share', 'Set-Cookie': kept } });
}
