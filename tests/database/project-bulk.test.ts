import { beforeAll, expect, it } from 'vitest'
import { bulkInsert } from '#lib/db/bulk-insert'
import { newId } from '#lib/db/new-id'
import { listProjectsUnderWay } from '#lib/db/project/queries'
import { setStars } from '#lib/db/project/set-stars'
import { applyProjectBulk } from '#lib/db/project-bulk/apply-project-bulk'
import { findProjectBulk, listProjectBulks } from '#lib/db/project-bulk/queries'
import { previewProjectBulk } from '#lib/db/project-bulk/read-project-bulk'
import { undoProjectBulk } from '#lib/db/project-bulk/undo-project-bulk'
import { write } from '#lib/db/write'
import type { ProjectFilter } from '#lib/project/filter-projects'
import { ok } from '#lib/result'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { hanneDrewitt } from './things'

describeOnEachEngine('changing many projects at once', ({ open }) => {
  const hanne = newId()
  // More than one statement takes.
  const projectIds = Array.from({ length: 1_100 }, () => newId())
  const [first, second, third] = projectIds as [string, string, string]
  const factsOf = (id: string) =>
    open().prisma.project.findUniqueOrThrow({
      where: { id },
      select: { dueOn: true, occasionKey: true, forWhom: true, stars: true },
    })

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: hanneDrewitt(hanne) })
    const designId = await aDesignOf(hanne)
    const rows = projectIds.map((id, at) => ({
      ...{
        id,
        ownerId: hanne,
        designId,
        status: at === 2 ? 'finished' : 'planned',
        finishedOn: at === 2 ? '2026-09-05' : null,
        forWhom: 'Petra Lisle',
      },
      ...{ dueOn: at === 1 ? '2027-03-28' : null, occasionKey: at === 1 ? 'easter' : null },
    }))
    granted(
      await write<null, never>(async ({ tx, engine }) => {
        await bulkInsert(tx, engine, 'Project', rows)
        return ok(null)
      }),
    )
  })

  const aDesignOf = async (ownerId: string): Promise<string> => {
    const { prisma } = open()
    const [chartId, designId] = [newId(), newId()]
    const titled = { title: 'Nine Wrens', titleKey: 'nine wrens' }
    await prisma.chart.create({ data: { id: chartId, ownerId, ...titled } })
    await prisma.design.create({ data: { id: designId, chartId, ...titled } })
    return designId
  }

  it('does what its preview said, passing over what is finished, and takes it back but for what was changed since', async () => {
    const request = { projectIds, change: { kind: 'due' as const, dueOn: '2026-12-24' } }
    const { lines, fingerprint } = await previewProjectBulk(request)
    expect(lines.filter(({ outcome }) => outcome === 'changes')).toHaveLength(1_099)
    expect(await applyProjectBulk({ ...request, what: 'Due', fingerprint: 'of another preview' })).toMatchObject({
      error: { kind: 'changed-meanwhile' },
    })
    const done = granted(await applyProjectBulk({ ...request, what: 'Due on 24 December', fingerprint, who: 'Nell Oxtoby' }))
    expect(done).toMatchObject({ changed: 1_099, same: 0, over: 1 })
    expect(await factsOf(second)).toEqual({ dueOn: '2026-12-24', occasionKey: null, forWhom: 'Petra Lisle', stars: null })
    expect((await factsOf(third)).dueOn).toBeNull()
    expect(await applyProjectBulk({ ...request, what: 'Again' })).toMatchObject({ error: { kind: 'nothing-changes' } })

    granted(await setStars({ projectIds: [first], stars: 4 }))
    expect(granted(await undoProjectBulk(done))).toEqual({ takenBack: 1_098, left: [{ id: first, why: 'changed-since' }] })
    expect(await factsOf(second)).toMatchObject({ dueOn: '2027-03-28', occasionKey: 'easter' })
    expect(await factsOf(first)).toMatchObject({ dueOn: '2026-12-24', stars: 4 })
    expect(await undoProjectBulk(done)).toMatchObject({ error: { kind: 'already-undone' } })
    expect(await undoProjectBulk({ bulkEditId: newId() })).toMatchObject({ error: { kind: 'no-such-edit' } })
    expect(await listProjectBulks(5)).toMatchObject([{ what: 'Due on 24 December', who: 'Nell Oxtoby', isUndone: true }])
    expect((await findProjectBulk(done.bulkEditId))?.left).toEqual([{ id: first, why: 'changed-since' }])
  })

  it('finds them by words of the design and for whom they are, and by when they are due', async () => {
    const found = (filter: Partial<ProjectFilter>) =>
      listProjectsUnderWay({
        ...{ ownerIds: [hanne], page: 1, perPage: 100, today: '2026-12-01' },
        filter: { status: null, words: '', due: null, ...filter },
      })
    expect(await found({ words: 'petra wrens' })).toMatchObject({ total: 1_099, every: 1_099 })
    expect(await found({ words: 'wrens heron' })).toMatchObject({ total: 0, every: 1_099, rows: [] })
    // As the change above left them: one was changed since, and one is due when it was before.
    expect((await found({ due: 'soon' })).ids).toEqual([first])
    expect((await found({ due: 'none' })).total).toBe(1_097)
    expect((await found({ status: 'kitted' })).ids).toEqual([])
  })

  it('is refused for more than can be changed at once', async () => {
    const many = { projectIds: Array.from({ length: 5_001 }, () => newId()), change: { kind: 'stars' as const, stars: 5 } }
    expect(await applyProjectBulk({ ...many, what: 'Stars' })).toMatchObject({ error: { kind: 'too-many', most: 5_000 } })
  })
})
