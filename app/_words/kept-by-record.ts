import { say } from '#language/say'

/** Why nothing is put where only the record puts what was looked for in vain. */
export const keptByRecordWords = (label: string): string =>
  say(
    '“{label}” is where the record keeps what was looked for in vain. Choose another place; if the thing is not there, say so on its own page.',
    { label },
  )
