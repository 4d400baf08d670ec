import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { glossary, glossaryEntries, glossaryGroups, searchGlossary } from '#words/glossary'

const app = path.join(import.meta.dirname, '../../../app')
const sources = readdirSync(app, { recursive: true, encoding: 'utf8' })
  .filter((file) => /\.tsx?$/.test(file))
  .map((file) => readFileSync(path.join(app, file), 'utf8'))

describe('the words of the trade', () => {
  it('are each an entry where a label or an address names one', () => {
    const named = sources.flatMap((text) => [
      ...[...text.matchAll(/<Word of="([\w-]+)"/g)].map(([, key]) => key as string),
      ...[...text.matchAll(/<WordsUsed of=\{\[([^\]]*)\]\}/g)].flatMap(([, keys = '']) =>
        [...keys.matchAll(/'([\w-]+)'/g)].map(([, key]) => key as string),
      ),
      ...[...text.matchAll(/\/glossary#([\w-]+)/g)].map(([, key]) => key as string),
    ])
    expect(new Set(named).size).toBeGreaterThan(15)
    expect(named.filter((key) => !(key in glossary()) && !(key in glossaryGroups))).toEqual([])
  })

  it('are each in one group, said in two sentences or fewer, and not named as a group is', () => {
    for (const { key, group, says } of glossaryEntries()) {
      expect(glossaryGroups[group], key).toBeDefined()
      expect(says.match(/[.!?](?: |$)/g)?.length ?? 0, key).toBeLessThanOrEqual(3)
      expect(says.endsWith('.'), key).toBe(true)
      expect(key in glossaryGroups, key).toBe(false)
    }
  })

  it('are found by what else they are called', () => {
    expect(searchGlossary('dye LOT').map(({ key }) => key)).toContain('lot')
    expect(searchGlossary('warp').map(({ key }) => key)).toContain('ends')
    expect(searchGlossary('legend').map(({ key }) => key)).toEqual(['key'])
    expect(searchGlossary('')).toHaveLength(glossaryEntries().length)
    expect(searchGlossary('zeppelin')).toEqual([])
  })
})
