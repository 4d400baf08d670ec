import { say } from '#language/say'

/** A kind of cloth as the catalogue names it: "single 34 × 31" → "34 × 31 evenweave or linen". */
export function clothKindWords(kind: string): string {
  const [weave, ...count] = kind.split(' ')
  return say('{count} {isBlock, select, yes {aida} other {evenweave or linen}}', {
    count: count.join(' '),
    isBlock: weave === 'block',
  })
}
