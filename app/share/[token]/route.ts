import { openSharedPage } from '@/db/share-links';

/**
 * Exchanges the token of a link for a cookie and goes on to the page, so that the token stands in no history entry, referrer or screenshot
 * of the page (headers: next.config.js). An unknown, expired or withdrawn link goes on just the same and finds nothing.
 */
export async function GET(_request: Request, { params }: { params: Promise<{ token: string }> }): Promise<Response> {
  const { token } = await params;
  const cookie = /^[\w-]{43}$/.test(token) ? await openSharedPage(token) : undefined;
  const secure = process.env.APP_URL?.startsWith('https:') ? '; Secure' : '';
  const kept = cookie
    ? `family-page=${cookie}; Path=/share; HttpOnly; SameSite=Lax; Max-Age=1209600${secure}`
    : 'family-page=; Path=/share; HttpOnly; SameSite=Lax; Max-Age=0';
  return new Response(null, { status: 303, headers: { Location: '/share', 'Set-Cookie': kept } });
}
