import 'server-only'
import { v7 } from 'uuid'

/** Ids sort by the time they were made (RFC 9562, version 7). */
export const newId = (): string => v7()
