import { describe, expect, it } from 'vitest'
import { applyPlan } from '#lib/importing/import-plan'
import type { Snapshot } from '#lib/importing/snapshot'
import { emptySnapshot } from '#lib/importing/snapshot'
import { ids, plan } from './bring-in'

const head = 'Owner,Maker,Line,Code,Put-up,Skeins,Place\n'
const first = plan(`${head}Hanne Drewitt,Larkholm,Stranded,0311,8 m,2,T1\n`, emptySnapshot, { kind: 'threads', newId: ids('t') })
const threads: Snapshot = applyPlan(emptySnapshot, first)
const threadId = threads.thread[0]?.id as string
const lineId = threads.line[0]?.id as string

const charts = 'Chart,Designer,Kind,Owner,Copies\n'
const held = applyPlan(
  emptySnapshot,
  plan(`${charts}Rook Hill in Snow,Hester Pindar,leaflet,Hanne Drewitt,1\n`, emptySnapshot, { kind: 'charts', newId: ids('c') }),
)
const chartId = held.chart[0]?.id as string
const designerId = held.designer[0]?.id as string

const nobody = { designers: [], titles: [], codes: [] }
const code = (makerName: string, lineName: string, text: string) => ({ makerName, lineName, code: text, threadId })
const added = (planned: ReturnType<typeof plan>) => planned.operations.map(({ noun }) => noun)

describe('a thread that was merged into another', () => {
  const now = {
    ...threads,
    former: { ...nobody, codes: [code('Larkholm', 'Stranded', '311'), code('Lark Holm', 'Stranded', '0311')] },
  }

  it('is that one when a row names it, and it is said', () => {
    const planned = plan(`${head}Hanne Drewitt,larkholm,stranded,311,8 m,3,T2\n`, now, { kind: 'threads' })
    expect(added(planned)).not.toContain('thread')
    expect(planned.operations).toContainEqual(
      expect.objectContaining({ noun: 'batch', row: expect.objectContaining({ threadId }) }),
    )
    expect(planned.warnings).toContainEqual(
      expect.objectContaining({
        rowNumber: 2,
        kind: 'former-name',
        raw: 'larkholm stranded 311',
        accepted: ['Larkholm Stranded 0311'],
      }),
    )
  })

  it('is meant by its maker’s old spelling too, with a code nobody knew and with no line said', () => {
    const spelt = plan(`${head}Hanne Drewitt,Lark Holm,Stranded,0742,8 m,3,T2\n`, now, { kind: 'threads' })
    expect(added(spelt)).not.toContain('maker')
    expect(spelt.operations).toContainEqual(
      expect.objectContaining({ noun: 'thread', row: expect.objectContaining({ lineId, code: '0742' }) }),
    )
    const bare = plan('Owner,Maker,Code,Skeins,Place\nHanne Drewitt,Lark Holm,0311,3,T2\n', now, { kind: 'threads' })
    expect(added(bare)).not.toContain('thread')
  })

  it('is itself where it is on record again', () => {
    const again = { ...now, thread: [...now.thread, { ...(now.thread[0] as (typeof now.thread)[number]), id: 'x', code: '311' }] }
    const planned = plan(`${head}Hanne Drewitt,Larkholm,Stranded,311,8 m,3,T2\n`, again, { kind: 'threads' })
    expect(planned.operations).toContainEqual(
      expect.objectContaining({ noun: 'batch', row: expect.objectContaining({ threadId: 'x' }) }),
    )
    expect(planned.warnings.filter(({ kind }) => kind === 'former-name')).toEqual([])
  })
})

describe('a chart and a designer that were merged into others', () => {
  const now = {
    ...held,
    former: { ...nobody, titles: [{ title: 'Rooks', chartId }], designers: [{ name: 'Hester Pinder', designerId }] },
  }

  it('are those when a row names them', () => {
    const planned = plan(`${charts}Rooks,Hester Pinder,leaflet,Hanne Drewitt,4\n`, now, { kind: 'charts' })
    expect(planned.operations).toMatchObject([{ do: 'change', noun: 'chart', id: chartId, after: { copies: 4 } }])
    expect(
      planned.warnings.filter(({ kind }) => kind === 'former-name').map(({ raw, accepted }) => [raw, accepted?.[0]]),
    ).toEqual([
      ['Hester Pinder', 'Hester Pindar'],
      ['Rooks', 'Rook Hill in Snow'],
    ])
  })

  it('are another owner’s own where that owner has none of the title', () => {
    const planned = plan(`${charts}Rooks,Hester Pindar,leaflet,The Oxmarsh Needle Room,1\n`, now, { kind: 'charts' })
    expect(planned.operations).toContainEqual(
      expect.objectContaining({ do: 'add', noun: 'chart', row: expect.objectContaining({ title: 'Rooks' }) }),
    )
  })
})
