process.env.NEXT_TELEMETRY_DISABLED ??= '1';

/** Everything comes from this server; nothing may frame a page, and no address leaves with a link. */
const headers = {
  'Content-Security-Policy': [
    "default-src 'self'",
    "script-src 'self' 'unsafe-inline'",
    "style-src 'self'",
    "img-src 'self' data:",
    "object-src 'none'",
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

/** A family's page is kept by nobody on the way, found by no search, and tells no other site where the reader came from. */
const forFamilies = { 'Referrer-Policy': 'no-referrer', 'Cache-Control': 'no-store', 'X-Robots-Tag': 'noindex, nofollow' };

const listed = (named) => Object.entries(named).map(([key, value]) => ({ key, value }));

export default {
  output: process.env.STANDALONE ? 'standalone' : undefined,
  poweredByHeader: false,
  serverExternalPackages: ['better-sqlite3'],
  outputFileTracingIncludes: { '/*': ['./db/migrations/**/*'] },
  headers: async () => [
    { source: '/:path*', headers: listed(headers) },
    { source: '/share/:path*', headers: listed(forFamilies) },
    { source: '/share', headers: listed(forFamilies) },
  ],
};
