/** The cookie that a share link is exchanged for; where the clinic is reached by https no page reached otherwise can set it. */
export function shareCookie(): { readonly name: string; readonly secure: boolean } {
  const secure = process.env.APP_URL?.startsWith('https:') ?? false;
  return { name: secure ? '__Secure-family-page' : 'family-page', secure };
}
