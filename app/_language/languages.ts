/** A language that screens are said in. */
export type Language = {
  /** What a cookie and a catalogue call it. */
  key: 'en' | 'de' | 'trial'
  /** What the page and Intl call it (BCP 47). */
  tag: string
  /** By which figures and days are written, where that is not the tag. */
  figuresTag?: string
  direction: 'ltr' | 'rtl'
  /** Its own name, for whoever cannot read the one the page is in. */
  name: string
}

/** The messages in the code are English, so it needs no catalogue. */
export const english: Language = { key: 'en', tag: 'en-GB', direction: 'ltr', name: 'English' }

/** Long words that run from right to left: shows what would not bear another language. For tests alone. */
const trial: Language = { key: 'trial', tag: 'ar-XB', figuresTag: 'en-GB', direction: 'rtl', name: 'Trial' }

/** Those to choose from. */
export const languages: readonly Language[] = [english, { key: 'de', tag: 'de', direction: 'ltr', name: 'Deutsch' }]

const all: readonly Language[] = [...languages, trial]

/** The language a page says it is in; English where it names none of them. */
export const languageOfTag = (tag: string): Language => all.find((language) => language.tag === tag) ?? english

/** The language of a key, or null; the trial one too. */
export const findLanguage = (key: string | null | undefined): Language | null =>
  all.find((language) => language.key === key) ?? null
