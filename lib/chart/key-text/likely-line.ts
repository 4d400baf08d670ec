import type { Draft } from './drafts'
import { nameKey, type Vocabulary } from './vocabulary'

/** The line of one maker that has far more of the list's codes, and names with them, than any other. */
export function likelyLine(drafts: readonly Draft[], known: Vocabulary): { maker: string; threadLine: string } | null {
  const counts = new Map<string, { maker: string; threadLine: string; count: number }>()
  let all = 0
  for (const { threads } of drafts) {
    for (const { code, name } of threads) {
      const held = code ? (known.byCode.get(code.value) ?? []) : []
      if (held.length === 0) continue
      all += 1
      const agreeing = name ? held.filter((thread) => thread.name !== null && nameKey(thread.name) === nameKey(name.value)) : held
      for (const thread of agreeing.length > 0 ? agreeing : held) {
        const key = `${nameKey(thread.maker)}|${nameKey(thread.threadLine)}`
        const found = counts.get(key) ?? { maker: thread.maker, threadLine: thread.threadLine, count: 0 }
        found.count += 1
        counts.set(key, found)
      }
    }
  }
  const [first, second] = [...counts.values()].sort((a, b) => b.count - a.count)
  return first && all >= 3 && first.count >= all * 0.8 && (second?.count ?? 0) <= first.count * 0.6 ? first : null
}
