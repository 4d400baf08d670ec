import { askApi, bringRows } from './api-steps'
import { shop } from './sample-files'
import type { House } from './visitor'

const rows = {
  charts: `Chart,Designer,Kind,Owner,Copies,Edition,Width,Height,Place
Three Tall Ferries,Corvin Ashdale,leaflet,${shop},2,,140,98,W7
The Three Tall Ferries,Corvin Ashdale,leaflet,${shop},1,second,140,98,W8
Tern on a Post,Dorrit Quayle,card,${shop},1,,44,44,W7
The Tern on a Post,Dorrit Quayle,card,${shop},1,second,44,44,W8`,
  threads: `Owner,Maker,Line,Code,Colour name,Put-up,Skeins,Place
${shop},Larkholm,Coton à Broder,0311,Pine,20 m,2,W7
${shop},Larkholm,Coton à Broder,311,,20 m,3,W8
${shop},Larkholm,Coton à Broder,0312,Fir,20 m,2,W7
${shop},Larkholm,Coton à Broder,312,,20 m,1,W8`,
}

type Pair = { firstId: string; firstName: string; secondId: string; secondName: string }

/**
 * Two charts and two threads entered twice, one pair of each made one: the addresses that show what became of them, and the pair of charts
 * that is left to be chosen from.
 */
export async function mergeDoubles(house: House): Promise<string[]> {
  for (const kind of ['charts', 'threads'] as const) await bringRows(house, kind, rows[kind])
  const pairOf = async (noun: 'chart' | 'thread', words: string): Promise<Pair> => {
    const { pairs } = await askApi<{ pairs: Pair[] }>(house, `/doubles?noun=${noun}`)
    const pair = pairs.find(({ firstName }) => firstName.includes(words))
    if (pair === undefined) throw new TypeError(`mergeDoubles: no pair of ${words} in ${JSON.stringify(pairs)}`)
    return pair
  }
  const merge = async (noun: 'chart' | 'thread', words: string): Promise<string> => {
    const { firstId, secondId } = await pairOf(noun, words)
    const { mergingId } = await askApi<{ mergingId: string }>(house, '/doubles/merge', {
      ...{ noun, keptId: firstId, goneId: secondId },
    })
    return `/${noun}s/doubles/${mergingId}`
  }
  const left = await pairOf('chart', 'Tern on a Post')
  return [
    await merge('chart', 'Three Tall Ferries'),
    await merge('thread', '311'),
    `/charts/doubles/merge?kept=${left.firstId}&gone=${left.secondId}`,
    '/charts/had?q=tern+on+a+post',
  ]
}
