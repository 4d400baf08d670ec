import 'server-only'
import type { Design } from '#lib/chart/design'
import { underWayStatuses } from '#lib/project/life-cycle'
import { designColumns, toDesign } from '../chart/design-rows'
import { database } from '../client'

/** A design that something may be cut for. */
export type CutDesign = Pick<Design, 'id' | 'title' | 'size' | 'advised'> & { chartTitle: string }

/** A project that something may be cut for. */
export type CutProject = {
  id: string
  ownerId: string
  designId: string
  title: string
  status: string
  quantity: number
  over: 1 | 2 | null
  forWhom: string | null
  finishing: string | null
}

export type CutSources = { designs: Map<string, CutDesign>; projects: Map<string, CutProject> }

/** The designs and projects of these ids, with the projects' designs; what is gone or closed is not among them. */
export async function readCutSources(wanted: {
  designIds: readonly string[]
  projectIds: readonly string[]
}): Promise<CutSources> {
  const { prisma } = database()
  const projectRows = await prisma.project.findMany({
    where: { id: { in: [...wanted.projectIds] }, goneAt: null, status: { in: [...underWayStatuses] } },
    select: {
      ...{ id: true, ownerId: true, designId: true, status: true, quantity: true, over: true, forWhom: true, finishing: true },
      design: { select: { title: true } },
    },
  })
  const designRows = await prisma.design.findMany({
    where: { id: { in: [...wanted.designIds, ...projectRows.map(({ designId }) => designId)] }, chart: { goneAt: null } },
    select: { ...designColumns, chart: { select: { title: true } } },
  })
  return {
    designs: new Map(
      designRows.map((row) => {
        const { id, title, size, advised } = toDesign(row)
        return [id, { id, title, size, advised, chartTitle: row.chart.title }]
      }),
    ),
    projects: new Map(
      projectRows.map(({ design, over, ...project }) => [
        project.id,
        { ...project, title: design.title, over: over === 1 || over === 2 ? over : null },
      ]),
    ),
  }
}
