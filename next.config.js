process.env.NEXT_TELEMETRY_DISABLED ??= '1';

export default {
  output: process.env.STANDALONE ? 'standalone' : undefined,
  poweredByHeader: false,
  serverExternalPackages: ['better-sqlite3'],
  outputFileTracingIncludes: { '/*': ['./db/migrations/**/*'] },
};
