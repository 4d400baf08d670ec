import 'server-only'
import { bagNumbers } from '#lib/project/kit/bags'
import type { MasterLine, MasterList } from '#lib/project/kit/master-list'
import type { ProjectStatus } from '#lib/project/life-cycle'
import { database } from '../client'
import { readMasterList } from '../kit/master-list'
import { readThreadTags, type ThreadTag } from '../thread/thread-tag'
import { type KitBagRow, type KitLotRow, linesOfBag, readBagRows, readLotRows } from './kit-rows'

/** A bag and what it is packed by; one that nothing was done to yet has no row of its own. */
export type KitBag = Omit<KitBagRow, 'id' | 'version'> & { lines: MasterLine[]; uncut: string[] }

export type KitBags = {
  project: {
    id: string
    title: string
    status: ProjectStatus
    owner: { id: string; name: string }
    designId: string
    designers: string[]
    widthStitches: number | null
    heightStitches: number | null
    chart: { id: string; copies: number; kind: string; isOtherOwner: boolean }
    dueOn: string | null
    forWhom: string | null
  }
  master: MasterList
  bags: KitBag[]
  lots: KitLotRow[]
  /** Of every thread of the master list and of the record. */
  threads: ReadonlyMap<string, ThreadTag>
  /** The label of every place where one of its threads lies. */
  places: ReadonlyMap<string, string>
}

const nothingDone = {
  ...{ packedAt: null, packedBy: null, checkedAt: null, checkedBy: null, sealedAt: null, sealedBy: null },
  ...{ soldAt: null, soldTo: null, note: null },
}

/** The bags of a project, what each is packed by and how it stands; null when there is no such project. */
export async function readKitBags(projectId: string): Promise<KitBags | null> {
  const { prisma } = database()
  const [master, row, rows, lots] = await Promise.all([
    readMasterList(projectId),
    prisma.project.findFirst({
      where: { id: projectId, goneAt: null },
      select: {
        ...{ id: true, status: true, ownerId: true, dueOn: true, forWhom: true, owner: { select: { id: true, name: true } } },
        design: {
          select: {
            ...{ id: true, title: true, widthStitches: true, heightStitches: true },
            chart: {
              select: {
                ...{ id: true, copies: true, kind: true, ownerId: true },
                designers: { orderBy: { position: 'asc' }, select: { designer: { select: { name: true } } } },
              },
            },
          },
        },
      },
    }),
    readBagRows(prisma, projectId),
    readLotRows(prisma, projectId),
  ])
  if (!master || !row) return null
  const { design, owner, ownerId, ...project } = row
  const { designers, ownerId: chartOwnerId, ...chart } = design.chart
  const byNumber = new Map(rows.map((one) => [one.number, one]))
  const wanted = bagNumbers(master)
  const beyond = rows.filter(({ number, status }) => number > master.copies && status !== 'open')
  const bags = [
    ...wanted.map((bag) => byNumber.get(bag.number) ?? { ...bag, ...nothingDone, status: 'open' as const, marks: [] }),
    ...beyond,
  ]
  const threads = await readThreadTags([
    ...new Set([
      ...master.lines.flatMap((line) => (line.kind === 'thread' ? [line.threadId] : [])),
      ...lots.map(({ threadId }) => threadId),
    ]),
  ])
  const placeRows = await prisma.place.findMany({
    where: { batchesHere: { some: { threadId: { in: [...threads.keys()] }, ownerId, goneAt: null } } },
    select: { id: true, label: true },
  })
  return {
    project: {
      ...project,
      ...{ title: design.title, status: row.status as ProjectStatus, owner, designId: design.id },
      ...{ widthStitches: design.widthStitches, heightStitches: design.heightStitches },
      designers: designers.map(({ designer }) => designer.name),
      chart: { ...chart, isOtherOwner: chartOwnerId !== ownerId },
    },
    master,
    bags: bags.map((bag) => {
      const { lines, uncut } = linesOfBag(master, lots, bag)
      return { ...bag, lines, uncut }
    }),
    lots,
    threads,
    places: new Map(placeRows.map(({ id, label }) => [id, label])),
  }
}
