import 'server-only'
import type { Who } from '#lib/access/who'
import { inSpan } from '#lib/log/span'
import { whileAsking } from '../access/asking'

/** Do a job as whoever began it. The key of their request was for beginning it, not for what is written on the way. */
export const asBegun = <T>(kind: string, who: Who, run: () => Promise<T>): Promise<T> =>
  whileAsking({ who, address: '', onceKey: null }, () => inSpan('job', { 'larder.job.kind': kind }, run))
