import { differenceCiede2000, type Lab65 } from 'culori'
import type { Lab } from '#lib/colour/lab'
import { NearestColours } from '#lib/colour/nearest'
import { seededRandom } from '#seed/random'
import type { Bench, Measurement } from './measurement'
import { comparedTimes, timeByTurns } from './timing'

const threadCount = 3_000
const askedInRound = 60
const rounds = 25
/** The two reckon in another order, and doubles have some sixteen figures. */
const rounding = 1e-9

type Coloured = { id: string; lab: Lab; lab65: Lab65 }

/** Lightness, chroma and hue as they lie in a cabinet of threads: middling ones oftenest, and paler ones and darker ones duller. */
function drawColours(count: number, seed: string): Coloured[] {
  const random = seededRandom(seed)
  const tenth = (value: number) => Math.round(value * 10) / 10
  return Array.from({ length: count }, (_, number) => {
    const L = tenth(Math.min(97, Math.max(12, random.normal(55, 19))))
    const chroma = Math.max(0, random.normal(28, 15)) * (1 - Math.abs(L - 55) / 90)
    const hue = random.next() * 2 * Math.PI
    const lab = { L, a: tenth(chroma * Math.cos(hue)), b: tenth(chroma * Math.sin(hue)) }
    return { id: String(number).padStart(4, '0'), lab, lab65: { mode: 'lab65', l: lab.L, a: lab.a, b: lab.b } }
  })
}

const difference = differenceCiede2000()

/** The nearest by a scan of all, the least id where several are as near. */
function scan(threads: readonly Coloured[], asked: Coloured, isOther: boolean): { id: string; deltaE00: number } {
  let id = ''
  let least = Number.POSITIVE_INFINITY
  for (const thread of threads) {
    if (isOther && thread.id === asked.id) continue
    const deltaE00 = difference(asked.lab65, thread.lab65)
    if (deltaE00 >= least) continue
    least = deltaE00
    id = thread.id
  }
  return { id, deltaE00: least }
}

async function run(): Promise<Measurement[]> {
  const threads = drawColours(threadCount, 'nearest threads')
  const strangers = drawColours(threadCount, 'nearest asked')
  const colours = new NearestColours(threads)
  const byId = new Map(threads.map((thread) => [thread.id, thread]))
  const differenceTo = (asked: Coloured, id: string) => difference(asked.lab65, (byId.get(id) as Coloured).lab65)
  const find = (asked: Coloured, isOther: boolean) =>
    colours.nearest(asked.lab, isOther ? { count: 1, accepts: (id) => id !== asked.id } : { count: 1 })[0]

  const measured = (name: string, questions: readonly Coloured[], isOther: boolean): Measurement => {
    for (const asked of questions) {
      const [ours, theirs] = [find(asked, isOther), scan(threads, asked, isOther)]
      // Where rounding parts two that are as near, either is right.
      const isSame =
        ours !== undefined &&
        Math.abs(ours.deltaE00 - theirs.deltaE00) < rounding &&
        Math.abs(differenceTo(asked, ours.id) - theirs.deltaE00) < rounding
      if (!isSame) throw new Error(`nearest-colour: ${asked.id}: ${JSON.stringify([ours, theirs])}`)
    }
    let [ourTurn, theirTurn] = [0, 0]
    const each = (from: number, ask: (asked: Coloured) => void) => {
      for (let at = 0; at < askedInRound; at++) ask(questions[(from + at) % questions.length] as Coloured)
    }
    const times = timeByTurns(
      {
        ours: () => each(ourTurn++ * askedInRound, (asked) => find(asked, isOther)),
        against: () => each(theirTurn++ * askedInRound, (asked) => scan(threads, asked, isOther)),
      },
      { rounds, warmUps: 5 },
    )
    return comparedTimes(name, times, { samples: rounds, timesFaster: 50 })
  }
  const count = threadCount.toLocaleString('en')
  return [
    measured(`the nearest other thread to ${askedInRound} of ${count} threads`, threads, true),
    measured(`the nearest of ${count} threads to ${askedInRound} other colours`, strangers, false),
  ]
}

export const nearestColour: Bench = {
  name: 'nearest-colour',
  about: [
    'The nearest of 3,000 made-up thread colours by CIEDE2000: found by ours, and by a scan of all with the general colour library’s own difference, which is given colours in the space it reckons in, so that it converts nothing, and of which only the least is kept. All questions asked are first answered by both and held to be the same.',
  ],
  run,
}
