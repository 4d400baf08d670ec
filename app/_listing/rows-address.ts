import { language } from '#language/language'
import type { BulkRoom } from './bulk-address'

/**
 * Where the window over a long list fetches its rows. All that the rows follow from stands in it, since what an address answered is kept: the
 * list's choices, whose goods are shown, and the language their words are in.
 */
export const rowsAddress = (room: BulkRoom, filter: string, ownerIds: readonly string[]): string =>
  `/${room}/rows?${filter}&of=${ownerIds.join()}&language=${language().key}`
