import { z } from 'zod'
import { idText, isTicked, optionalRead, optionalText, versionText } from '#forms/fields'
import { say } from '#language/say'
import { parseNumber, parseWholeNumber } from '#lib/quantity/number'

const mostStitches = 10_000_000
const mostMinutes = 60_000

/** "310", or "-40" for what was unpicked. Blank is none. */
const stitches = optionalRead(
  (text) => {
    const unsigned = text.replace(/^[-−–]\s*/u, '')
    const value = parseWholeNumber(unsigned)
    if (value === null || value > mostStitches) return null
    return unsigned === text || value === 0 ? value : -value
  },
  () => say('Stitches are a whole number: 310; or -40 for what was unpicked.'),
)

/** "2½", "1:30", "45 min": in minutes. */
const minutes = optionalRead(
  (text) => {
    const clock = /^(\d{1,4}):([0-5]\d)$/.exec(text)
    const short = /^(.+?)\s*(?:min|m)\.?$/i.exec(text)
    const number = clock ? null : parseNumber(short ? (short[1] as string) : text.replace(/\s*h\.?$/i, ''))
    const value = clock
      ? Number(clock[1]) * 60 + Number(clock[2])
      : number === null
        ? -1
        : Math.round(short ? number : number * 60)
    return value >= 0 && value <= mostMinutes ? value : null
  },
  () => say('Hours are a number: 2, 1½, 1:30 or 45 min.'),
)

/** "17.5 %", in thousandths. */
const donePerMille = optionalRead(
  (text) => {
    const value = parseNumber(text.replace(/\s*%$/, ''))
    return value === null || value < 0 || value > 100 ? null : Math.round(value * 10)
  },
  () => say('How far it has come is a number of per cent from 0 to 100.'),
)

const day = z.iso.date({ error: () => say('Give a day as 2026-12-01.') })
const said = { stitches, minutes, donePerMille, note: optionalText(1_000) }

export const logWorkSchema = z.object({
  projectId: idText,
  day: z.union([z.literal(''), day]).optional(),
  ...said,
  isTick: isTicked,
  stopsTimer: isTicked,
})

const entry = { entryId: idText, version: versionText }
export const changeWorkSchema = z.object({ ...entry, day, ...said })
export const workEntrySchema = z.object(entry)
export const timedProjectSchema = z.object({ projectId: idText })
