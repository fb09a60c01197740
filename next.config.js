process.env.NEXT_TELEMETRY_DISABLED ??= '1';

/**
 * Everything comes from this server; nothing may frame a page, and no address leaves with a link.
 *
 * Scripts inside a page are allowed because the framework writes the page's data as such, differently for each answer; a nonce for them
 * would need a file beside this one that runs before every request. Handlers in attributes, plug-ins and every other source are refused.
 */
const headers = {
  'Content-Security-Policy': [
    "default-src 'none'",
    "script-src 'self' 'unsafe-inline'",
    "script-src-attr 'none'",
    "style-src 'self'",
    "img-src 'self' data:",
    "font-src 'self'",
    "connect-src 'self'",
    "manifest-src 'self'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join('; '),
  'X-Content-Type-Options': 'nosniff',
  'X-Frame-Options': 'DENY',
  'Referrer-Policy': 'same-origin',
  'Permissions-Policy': 'camera=(), microphone=(), geolocation=(), payment=(), usb=()',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Strict-Transport-Security': 'max-age=31536000',
};

/** An address with a token in it is kept by nobody on the way, found by no search, and told to no other page. */
const withToken = { 'Referrer-Policy': 'no-referrer', 'Cache-Control': 'no-store', 'X-Robots-Tag': 'noindex, nofollow' };

const listed = (named) => Object.entries(named).map(([key, value]) => ({ key, value }));

export default {
  output: process.env.STANDALONE ? 'standalone' : undefined,
  poweredByHeader: false,
  /** No page shows a picture that would be made smaller here: the address that does so answers nothing. */
  images: { unoptimized: true },
  serverExternalPackages: ['better-sqlite3'],
  outputFileTracingIncludes: { '/*': ['./db/migrations/**/*'] },
  /** `forbidden()`: a request from another site is answered 403. */
  experimental: { authInterrupts: true },
  headers: async () => [
    { source: '/:path*', headers: listed(headers) },
    ...['/share/:path*', '/share', '/join/:path*'].map((source) => ({ source, headers: listed(withToken) })),
  ],
};
