import { say } from '#language/say'
import type { Trouble } from '#lib/db/trouble'

/** What keeps the program from its work, as a person is told it. */
export function describeTrouble(trouble: Trouble): string {
  switch (trouble) {
    case 'full':
      return say('There is no room left on the disk. Nothing was changed. Make room, then do it again.')
    case 'busy':
      return say('Another program holds the database just now. Nothing was changed. Try again in a moment.')
    case 'away':
      return say('The database does not answer just now. Nothing was changed. Try again in a moment.')
  }
}

const troubles = ['full', 'busy', 'away'] as const satisfies readonly Trouble[]
const mark = 'LARDER_'

/** The framework hands a page that could not be made nothing of the error but this. */
export const digestOfTrouble = (trouble: Trouble): string => `${mark}${trouble}`

/** What kept a page from being made; null for a fault of the program. */
export const troubleOfDigest = (digest: string | undefined): Trouble | null =>
  troubles.find((trouble) => digest === digestOfTrouble(trouble)) ?? null
