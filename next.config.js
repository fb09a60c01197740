process.env.NEXT_TELEMETRY_DISABLED ??= '1';

/**
 * Everything comes from this server; nothing may frame a page, and no address leaves with a link.
 *
 * Scripts inside a page run only with the word that the guard of every request makes for this one answer and adds to this policy
 * (`app/_server/script-nonce.mjs`). Handlers in attributes, plug-ins and every other source are refused.
 */
const headers = {
  'Content-Security-Policy': [
    "default-src 'none'",
    "script-src 'self'",
    "script-src-attr 'none'",
    "style-src 'self'",
    "img-src 'self' data:",
    "font-src 'self'",
    "connect-src 'self'",
    "manifest-src 'self'",
    "worker-src 'self'",
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
  serverExternalPackages: ['better-sqlite3', 'better-sqlite3-from-node-22'],
  outputFileTracingIncludes: {
    '/*': [
      './db/migrations/**/*',
      './node_modules/better-sqlite3-from-node-22/prebuilds/*.node',
      './node_modules/@zxcvbn-ts/*/{package.json,dist/**/*.cjs,dist/**/*.json}',
      './node_modules/fastest-levenshtein/*.{js,json}',
    ],
  },
  /** A build to be copied elsewhere never holds a database, a key or what a test left behind. */
  outputFileTracingExcludes: { '/*': ['./data/**/*', './test-results/**/*', './tests/**/*'] },
  /** `forbidden()`: a request from another site is answered 403. */
  experimental: { authInterrupts: true },
  headers: async () => [
    { source: '/:path*', headers: listed(headers) },
    ...['/share/:path*', '/join/:path*'].map((source) => ({ source, headers: listed(withToken) })),
    // The page behind a share link has no token in its address, and a form: with no referrer at all a browser without script would send it from
    // the origin `null`, as another site’s might (Fetch standard, “append a request Origin header”).
    { source: '/share', headers: listed({ ...withToken, 'Referrer-Policy': 'same-origin' }) },
  ],
};
