import 'server-only'
import { readFile } from 'node:fs/promises'
import path from 'node:path'
import Papa from 'papaparse'
import { ok } from '#lib/result'
import { newId } from '../new-id'
import { write } from '../write'

type Row = Record<'What' | 'Design' | 'Owner' | 'Day' | 'Until' | 'Stitches' | 'Hours' | 'Note', string>

/**
 * Bring in the log of the sample's projects, its rotation and a time away. They lie in a file of their own, which is none a person
 * could bring in. The projects' totals, which came with the projects, account for the log already, so they stay as they are; and so do
 * the projects, which can be taken back with their import. What has a log already gets no other.
 */
export async function bringInSampleWork(): Promise<void> {
  const text = await readFile(path.join(process.cwd(), 'seed', 'oxmarsh', 'work.csv'), 'utf8')
  const rows = Papa.parse<Row>(text, { header: true, skipEmptyLines: true }).data
  await write(async ({ tx, at, touch }) => {
    const projects = await tx.project.findMany({
      where: { goneAt: null, work: { none: {} }, design: { title: { in: [...new Set(rows.map(({ Design }) => Design))] } } },
      select: { id: true, design: { select: { title: true } }, owner: { select: { name: true } } },
      orderBy: { id: 'asc' },
    })
    const idOf = new Map(projects.map(({ id, design, owner }) => [`${design.title}|${owner.name}`, id]))
    const of = (what: string) =>
      rows.flatMap((row) => {
        const projectId = idOf.get(`${row.Design}|${row.Owner}`)
        return row.What === what && projectId ? [{ ...row, projectId }] : []
      })
    await tx.workEntry.createMany({
      data: of('log').map(({ projectId, Day, Stitches, Hours, Note }) => ({
        ...{ id: newId(), projectId, day: Day, stitches: Number(Stitches), minutes: Number(Hours) * 60, note: Note || null, at },
      })),
    })
    await tx.rotationTurn.createMany({ data: of('turn').map(({ projectId }, position) => ({ projectId, position })) })
    for (const { What, Owner, Day, Until, Note } of rows) {
      const owner = What === 'away' ? await tx.owner.findFirst({ where: { name: Owner }, select: { id: true } }) : null
      if (!owner) continue
      const time = { ownerId: owner.id, fromOn: Day, toOn: Until }
      if ((await tx.timeAway.count({ where: time })) === 0)
        await tx.timeAway.create({ data: { id: newId(), ...time, what: Note } })
    }
    for (const { id } of projects) touch('project', id)
    return ok(null)
  })
}
