import { findProject, type ProjectRow } from '#lib/db/project/queries'
import { placeRef } from './collection'

export const describeProject = (row: ProjectRow) => ({
  projectId: row.id,
  status: row.status,
  quantity: row.quantity,
  spares: row.spares,
  design: { designId: row.design.id, title: row.design.title, chartId: row.design.chartId },
  owner: row.owner,
  place: placeRef(row.place),
  forWhom: row.forWhom,
  dueOn: row.dueOn,
  stars: row.stars,
  plannedOn: row.plannedOn,
  startedOn: row.startedOn,
  finishedOn: row.finishedOn,
  hoursTenths: row.hoursTenths,
  stitchesDone: row.stitchesDone,
  stitchesTotal: row.stitchesTotal,
})

/** One project in full, or null. */
export async function readProject(projectId: string) {
  const project = await findProject(projectId)
  if (!project) return null
  const { version, over, finishing, finishingWeeks, occasionKey, note, threadList, clothPiece } = project
  return {
    ...describeProject(project),
    ...{ version, over, finishing, finishingWeeks, occasionKey, note, threadList },
    clothPiece: clothPiece && { clothPieceId: clothPiece.id, label: clothPiece.label, name: clothPiece.name },
  }
}

/** A project just written. @throws {Error} if it is gone again. */
export async function getWritten(projectId: string) {
  const project = await readProject(projectId)
  if (!project) throw new Error(`getWritten: no project ${projectId}`)
  return project
}
