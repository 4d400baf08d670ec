import { who } from '#lib/db/access/asking'
import { describeNotAllowed } from '#words/sign-in'
import { Problem } from './problem'

/** What a keeper's file or figure answers to anybody else. */
export const keepersOnly = (): Response => new Problem('not-allowed', describeNotAllowed(who(), 'keep')).toResponse()
