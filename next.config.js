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

export default {
  output: process.env.STANDALONE ? 'standalone' : undefined,
  poweredByHeader: false,
  serverExternalPackages: ['better-sqlite3'],
  outputFileTracingIncludes: { '/*': ['./db/migrations/**/*'] },
  headers: async () => [{ source: '/:path*', headers: Object.entries(headers).map(([key, value]) => ({ key, value })) }],
};
