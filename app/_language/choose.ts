import { english, findLanguage, type Language, languages } from './languages'

/** The cookie that keeps a chosen language; without it the page follows the browser. */
export const languageCookie = 'larder-language'
export const languageCookieSeconds = 400 * 24 * 3_600

/**
 * The language to answer in: the one chosen on this device, else the first of those there are that the browser asks for (RFC 9110,
 * section 12.5.4: by weight, then as they stand; `de-AT` is met by `de`), else English.
 *
 * @param mayBeTrial  whether the tests' own language may be chosen
 */
export function chooseLanguage(asked: { cookie: string | null; acceptLanguage: string | null }, mayBeTrial = false): Language {
  const chosen = findLanguage(asked.cookie)
  if (chosen && (chosen.key !== 'trial' || mayBeTrial)) return chosen
  return languageAccepted(asked.acceptLanguage) ?? english
}

export function languageAccepted(acceptLanguage: string | null): Language | null {
  const wishes = (acceptLanguage ?? '')
    .slice(0, 1_000)
    .split(',')
    .map((wish, at) => {
      const [range = '', ...parameters] = wish
        .trim()
        .toLowerCase()
        .split(/\s*;\s*/)
      const weight = parameters.find((one) => one.startsWith('q='))
      return { range, at, weight: weight === undefined ? 1 : Number(weight.slice(2)) || 0 }
    })
  for (const { range, weight } of wishes.sort((a, b) => b.weight - a.weight || a.at - b.at)) {
    const found = weight > 0 && languages.find(({ key }) => range === key || range.startsWith(`${key}-`))
    if (found) return found
  }
  return null
}
