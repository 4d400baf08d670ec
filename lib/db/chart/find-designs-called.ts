import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { database } from '../client'

export type DesignCalled = { id: string; title: string; chartTitle: string }

const mostShown = 5

/** The designs of that title, however spelt; first of all charts that are there, at most a few. */
export async function findDesignsCalled(title: string): Promise<DesignCalled[]> {
  const rows = await database().prisma.design.findMany({
    where: { titleKey: textKey(title), chart: { goneAt: null } },
    select: { id: true, title: true, chart: { select: { title: true } } },
    orderBy: { id: 'asc' },
    take: mostShown,
  })
  return rows.map(({ chart, ...design }) => ({ ...design, chartTitle: chart.title }))
}
