const PROGRAMS: readonly (readonly [RegExp, string])[] = [
  [/\bEdg(e|A|iOS)?\//, 'Edge'],
  [/\b(OPR|Opera)\//, 'Opera'],
  [/\bSamsungBrowser\//, 'Samsung Internet'],
  [/\b(Firefox|FxiOS)\//, 'Firefox'],
  [/\b(Chrome|CriOS|HeadlessChrome|Chromium)\//, 'Chrome'],
  [/\bSafari\//, 'Safari'],
];

const MACHINES: readonly (readonly [RegExp, string])[] = [
  [/\biPhone\b/, 'iPhone'],
  [/\biPad\b/, 'iPad'],
  [/\bAndroid\b/, 'Android'],
  [/\bCrOS\b/, 'Chromebook'],
  [/\bWindows\b/, 'Windows'],
  [/\bMac OS X\b/, 'Mac'],
  [/\bLinux\b/, 'Linux'],
];

/**
 * A browser as a person knows it, from what it says of itself: `Chrome on Windows`.
 *
 * The order counts: most browsers also name the ones they descend from.
 */
export function deviceInWords(userAgent: string | null): string {
  const found = (names: typeof PROGRAMS) => names.find(([pattern]) => pattern.test(userAgent ?? ''))?.[1];
  const [program, machine] = [found(PROGRAMS), found(MACHINES)];
  if (!program && !machine) return 'A browser that does not tell';
  return machine ? `${program ?? 'A browser'} on ${machine}` : (program ?? '');
}
