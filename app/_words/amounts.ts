import { listText } from '#language/figures'
import { formatThreadLength } from '#language/lengths'
import { say as sayMade } from '#language/say'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'

const ofMany = (word: string): string =>
  /(?:s|x|z|ch|sh)$/.test(word) ? `${word}es` : /[^aeiou]y$/.test(word) ? `${word.slice(0, -1)}ies` : `${word}s`

/** A word that people may have chosen, where it stands in a message. */
const written = (word: string): string => word.replaceAll("'", "''").replace(/[{}<>]+/g, "'$&'")
const writtenCounted = (word: string): string => word.replaceAll("'", "''").replace(/[{}<>#]+/g, "'$&'")

/** A word or sentence that stands in a table of lib; gather.mjs has it from there. */
export const sayWord = (word: string): string => sayMade(written(word))

/** A noun by itself, which may be another word elsewhere: the column "Count", a "cut" of thread. */
export const sayNoun = (word: string): string => sayMade(`{as, select, other {${written(word)}}}`)

/** What a thread is sold in, as it is stored in English, within a sentence: "skein". The usual ones are in the catalogues (gather.mjs). */
export const singular = (word: string): string => sayNoun(word)

/** "skeins", "boxes". */
export const plural = (word: string): string => sayNoun(ofMany(word))

const usualPutUps = ['skein', 'card', 'loop', 'hank', 'spool', 'ball', 'cut', 'reel', 'tube', 'packet', 'cone']

/** The stored word that a typed one means: "Docke" is a skein. Any other is kept as it was typed. */
export const putUpMeant = (typed: string): string =>
  usualPutUps.find((word) => singular(word).toLowerCase() === typed.toLowerCase()) ?? typed

/** "1 skein", "2 skeins", "1,240 stitches". The word is English; the messages of the usual ones are in the catalogues (gather.mjs). */
export const counted = (count: number, word: string): string =>
  sayMade(`{count, plural, one {# ${writtenCounted(word)}} other {# ${writtenCounted(ofMany(word))}}}`, { count })

/** How long something may take: "20 seconds", "5 minutes". */
export const limitWords = (seconds: number): string =>
  seconds < 60 ? counted(seconds, 'second') : counted(seconds / 60, 'minute')

/** A length of strand as a length of the thread it is parted from: "13.16 m". */
export const threadLength = (strandTenths: number, strands: number, unit: ThreadLengthUnit): string =>
  formatThreadLength(strandTenths / strands, unit)

/** "a, b and c". */
export const listed = (items: readonly string[]): string => listText(items)
