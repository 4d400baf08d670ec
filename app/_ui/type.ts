import localFont from 'next/font/local'

/**
 * The Latin letters of the sans, which nearly every word is set in: asked for with the page itself and not only once its styles have come. Other
 * alphabets are in the family's own style sheet and come when a page holds some; the serif comes when a page names a piece of work.
 */
export const sans = localFont({
  src: '../../node_modules/@fontsource-variable/source-sans-3/files/source-sans-3-latin-wght-normal.woff2',
  weight: '200 900',
  display: 'swap',
  variable: '--sans-latin',
  // tokens.css has a stand-in that comes after the other alphabets.
  adjustFontFallback: false,
  declarations: [
    {
      prop: 'unicode-range',
      value:
        'U+0000-00FF,U+0131,U+0152-0153,U+02BB-02BC,U+02C6,U+02DA,U+02DC,U+0304,U+0308,U+0329,U+2000-206F,U+20AC,U+2122,U+2191,U+2193,U+2212,U+2215,U+FEFF,U+FFFD',
    },
  ],
})
