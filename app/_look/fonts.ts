import localFont from 'next/font/local';

/*
 * Two families that travel with the program, as their packages deliver them (`fonts/`, SIL Open Font License beside them): figures in the
 * sans, judgement in the serif. The latin files are asked for with the page; letters of other European languages only where a name has one.
 * Ranges are those of the packages but for ¼ ½ ¾: the files have no ⅛ ⅜ ⅝ ⅞, and fractions of one figure come from one face. The framework reads these calls without running them: their arguments are literals.
 */
const sans = localFont({
  src: './fonts/source-sans-3-latin.woff2',
  weight: '200 900',
  display: 'swap',
  adjustFontFallback: false,
  variable: '--sans-shipped',
  declarations: [
    {
      prop: 'unicode-range',
      value:
        'U+0000-00BB,U+00BF-00FF,U+0131,U+0152-0153,U+02BB-02BC,U+02C6,U+02DA,U+02DC,U+0304,U+0308,U+0329,U+2000-206F,U+20AC,U+2122,U+2191,U+2193,U+2212,U+2215,U+FEFF,U+FFFD',
    },
  ],
});

const serif = localFont({
  src: './fonts/source-serif-4-latin.woff2',
  weight: '200 900',
  display: 'swap',
  adjustFontFallback: false,
  variable: '--serif-shipped',
  declarations: [
    {
      prop: 'unicode-range',
      value:
        'U+0000-00BB,U+00BF-00FF,U+0131,U+0152-0153,U+02BB-02BC,U+02C6,U+02DA,U+02DC,U+0304,U+0308,U+0329,U+2000-206F,U+20AC,U+2122,U+2191,U+2193,U+2212,U+2215,U+FEFF,U+FFFD',
    },
  ],
});

const moreSans = localFont({
  src: './fonts/source-sans-3-latin-ext.woff2',
  weight: '200 900',
  display: 'swap',
  preload: false,
  adjustFontFallback: false,
  variable: '--more-sans-shipped',
  declarations: [
    {
      prop: 'unicode-range',
      value:
        'U+0100-02BA,U+02BD-02C5,U+02C7-02CC,U+02CE-02D7,U+02DD-02FF,U+0304,U+0308,U+0329,U+1D00-1DBF,U+1E00-1E9F,U+1EF2-1EFF,U+2020,U+20A0-20AB,U+20AD-20C4,U+2113,U+2C60-2C7F,U+A720-A7FF',
    },
  ],
});

const moreSerif = localFont({
  src: './fonts/source-serif-4-latin-ext.woff2',
  weight: '200 900',
  display: 'swap',
  preload: false,
  adjustFontFallback: false,
  variable: '--more-serif-shipped',
  declarations: [
    {
      prop: 'unicode-range',
      value:
        'U+0100-02BA,U+02BD-02C5,U+02C7-02CC,U+02CE-02D7,U+02DD-02FF,U+0304,U+0308,U+0329,U+1D00-1DBF,U+1E00-1E9F,U+1EF2-1EFF,U+2020,U+20A0-20AB,U+20AD-20C4,U+2113,U+2C60-2C7F,U+A720-A7FF',
    },
  ],
});

/** Classes of the root element that give the tokens `--sans` and `--serif` their faces. */
export const FONTS = [sans, serif, moreSans, moreSerif].map(({ variable }) => variable).join(' ');
