import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import type { Answers } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { bringIn } from '#lib/db/importing/bring-in'
import { readSampleFile } from '#lib/db/importing/sample'
import { stageFile } from '#lib/db/importing/stage-file'
import type { ImportKind } from '#lib/importing/fields'
import { seededRandom } from '#seed/random'
import { describeOnEachEngine } from './engines'

/** Every answer by names, since ids differ from one collection to the next. */
function answersByName(answers: Answers): Record<string, unknown> {
  const { world } = answers
  const named: Record<string, unknown> = {}
  for (const [ownerId, ownerName] of world.owners) {
    const engine = answers.coverage([ownerId])
    const cloth = answers.cloth([ownerId])
    for (const facts of world.designs.values()) {
      const key = `${ownerName} | ${world.owners.get(facts.ownerId)} | ${facts.chartTitle} | ${facts.design.title}`
      const best = engine.answerFor(facts.design.id)?.best
      const choice = cloth.choiceFor(facts.design.id)
      named[key] = {
        cover: best && { ...best, listId: undefined },
        lists: engine.answerFor(facts.design.id)?.lists.map(({ listId: _, ...rest }) => rest),
        cloth: choice?.best && [
          choice.best.piece.label ?? choice.best.piece.name,
          choice.best.fit.kind,
          choice.best.fit.isTurned,
        ],
      }
    }
  }
  return named
}

const seen: Record<string, unknown>[] = []

for (const { title, order, shuffles } of [
  {
    title: 'in the order of the files',
    order: ['places', 'threads', 'cloth', 'charts', 'lists', 'projects', 'notions'],
    shuffles: false,
  },
  // A thread list needs its design; nothing else needs anything.
  {
    title: 'rows shuffled, files in another order',
    order: ['notions', 'charts', 'lists', 'cloth', 'threads', 'projects', 'places'],
    shuffles: true,
  },
] as const) {
  describeOnEachEngine(`the sample brought in, ${title}`, ({ name }) => {
    const folder = mkdtempSync(path.join(tmpdir(), 'larder-order-'))
    beforeAll(() => {
      vi.stubEnv('LARDER_DATA', folder)
    })
    afterAll(() => {
      vi.unstubAllEnvs()
      rmSync(folder, { recursive: true, force: true })
    })

    it('gives the same answer for every design', async () => {
      const random = seededRandom(20_260_907)
      for (const kind of order) {
        const text = (await readSampleFile(kind as ImportKind)).toString('utf8')
        const [header, ...rows] = text.trimEnd().split('\r\n')
        const shuffled = shuffles ? random.shuffle(rows) : rows
        const { stagedId } = await stageFile(`${kind}.csv`, new TextEncoder().encode([header, ...shuffled, ''].join('\r\n')))
        expect(await bringIn(stagedId, { kind: kind as ImportKind })).toMatchObject({
          ok: true,
          value: { counts: { refused: 0 } },
        })
      }
      const answers = answersByName(await getAnswers())
      expect(Object.keys(answers)).toHaveLength(440)
      seen.push(answers)
      expect(answers, name).toEqual(seen[0])
    })
  })
}
