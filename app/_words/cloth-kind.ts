/** A kind of cloth as the catalogue names it: "single 34 × 31" → "34 × 31 evenweave or linen". */
export function clothKindWords(kind: string): string {
  const [weave, ...count] = kind.split(' ')
  return `${count.join(' ')} ${weave === 'block' ? 'aida' : 'evenweave or linen'}`
}
