import { say } from '#language/say'

/** Later ones carry the marks of those before them for old sites' sake, so the order tells them apart. */
const browsers: readonly (readonly [RegExp, string])[] = [
  [/\bEdg(?:e|A|iOS)?\//, 'Edge'],
  [/\b(?:OPR|Opera)\//, 'Opera'],
  [/\bSamsungBrowser\//, 'Samsung Internet'],
  [/\b(?:Firefox|FxiOS)\//, 'Firefox'],
  [/\b(?:HeadlessChrome|Chromium)\//, 'Chromium'],
  [/\b(?:Chrome|CriOS)\//, 'Chrome'],
  [/\bVersion\/.*\bSafari\//, 'Safari'],
]

const systems = (): readonly (readonly [RegExp, string])[] => [
  [/\biPhone\b/, say('an iPhone')],
  [/\biPad\b/, say('an iPad')],
  [/\bAndroid\b/, 'Android'],
  [/\bCrOS\b/, 'ChromeOS'],
  [/\bWindows\b/, 'Windows'],
  [/\bMac OS X\b|\bMacintosh\b/, say('a Mac')],
  [/\bLinux\b/, 'Linux'],
]

const nameIn = (names: readonly (readonly [RegExp, string])[], text: string): string | null =>
  names.find(([mark]) => mark.test(text))?.[1] ?? null

/** What a browser says of itself (RFC 9110, section 10.1.5), as a person would: "Firefox on Windows". */
export function deviceWords(userAgent: string): string {
  const [browser, system] = [nameIn(browsers, userAgent), nameIn(systems(), userAgent)]
  if (browser !== null && system !== null) return say('{browser} on {system}', { browser, system })
  const [first] = userAgent.trim().split(/[\s/(]/)
  return (
    browser ??
    (system !== null
      ? say('A browser on {system}', { system })
      : first
        ? first.slice(0, 40)
        : say('A device that says nothing of itself'))
  )
}
