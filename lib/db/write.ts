import 'server-only'
import type { Result } from '#lib/result'
import { database } from './client'
import { type Write, writeTo } from './write-gate'

/** `writeTo` the process's own database: what screens and API use. */
export const write = <T, E>(work: (write: Write) => Promise<Result<T, E>>, timeoutMs?: number): Promise<Result<T, E>> =>
  writeTo(database(), work, timeoutMs)
