import type { AuditFilter } from '#lib/db/access/list-audit'
import { type LogQuery, unknownPerson } from './schema'

/** A day by this machine's clock; one on which the clock changes is an hour longer or shorter. */
function dayFrom(day: string): { fromAt: Date; untilAt: Date } {
  const fromAt = new Date(`${day}T00:00:00`)
  const untilAt = new Date(fromAt)
  untilAt.setDate(untilAt.getDate() + 1)
  return { fromAt, untilAt }
}

export const auditFilterOf = ({ person, day }: Pick<LogQuery, 'person' | 'day'>): AuditFilter => ({
  ...(person !== '' && { accountId: person === unknownPerson ? null : person }),
  ...(day !== '' && dayFrom(day)),
})

export function logHref(
  query: Partial<Pick<LogQuery, 'person' | 'day' | 'page' | 'change'>>,
  path = '/settings/people/log',
): string {
  const search = new URLSearchParams()
  if (query.person) search.set('person', query.person)
  if (query.day) search.set('day', query.day)
  if (query.page !== undefined && query.page > 1) search.set('page', String(query.page))
  if (query.change !== undefined) search.set('change', String(query.change))
  const text = search.toString()
  return text ? `${path}?${text}` : path
}
