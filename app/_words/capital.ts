import { language } from '#language/language'

/** "the first of winter" begins a line with a capital. */
export const capital = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`

/** A label within a sentence: "Leaflet" is written "leaflet", where the language writes it so. */
export const midSentence = (words: string): string => (language().key === 'de' ? words : words.toLowerCase())
