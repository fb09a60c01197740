import { calendarResponse, changedSince } from '@/app/_calendar/calendar-response';
import { calendarOfToken } from '@/db/documents/calendar-feeds';

/** The dates of a calendar address, for a calendar program that cannot sign in. Unknown and withdrawn addresses look the same. */
export async function GET(_request: Request, { params }: { params: Promise<{ token: string }> }): Promise<Response> {
  const { token } = await params;
  const found = /^[\w-]{43}$/.test(token) ? await calendarOfToken(token, changedSince()) : undefined;
  if (!found) return new Response('There is nothing at this address.', { status: 404, headers: { 'Cache-Control': 'no-store' } });
  return calendarResponse(found.dates, found.timeZone, 'garment-dates');
}
