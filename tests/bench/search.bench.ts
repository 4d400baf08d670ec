import { textKey } from '#lib/quantity/text-key'
import { type Random, seededRandom } from '#seed/random'
import { madeCollection } from './made-collection'
import type { Bench, Measurement } from './measurement'
import { percentile, timeMs } from './timing'

const questionCount = 500
const firstHits = 10
const fewestLetters = 5

const mistakes = ['another letter', 'a letter left out', 'two letters swapped'] as const
type Mistake = (typeof mistakes)[number]

type Question = { designId: string; right: string; wrong: Record<Mistake, string> }

const letters = [...'abcdefghijklmnopqrstuvwxyz']

/** @returns the word with one mistake in it, never the word itself; null where it cannot be (all its letters are the same) */
function misspelt(random: Random, word: string, mistake: Mistake): string | null {
  const spelt = (at: number): string => {
    const [before, letter, after] = [word.slice(0, at), word.charAt(at), word.slice(at + 1)]
    switch (mistake) {
      case 'another letter':
        return before + random.pick(letters.filter((other) => other !== letter)) + after
      case 'a letter left out':
        return before + after
      case 'two letters swapped':
        return before + after.charAt(0) + letter + after.slice(1)
    }
  }
  const last = mistake === 'two letters swapped' ? word.length - 2 : word.length - 1
  const at = random.shuffle(Array.from({ length: last + 1 }, (_, index) => index)).find((index) => spelt(index) !== word)
  return at === undefined ? null : spelt(at)
}

const wordsOf = (title: string): string[] => textKey(title).match(/[a-z]+/g) ?? []

/**
 * Titles drawn at random, and for each the fewest words of it that at most ten titles have: one where one will do, else two. One word,
 * of five letters or more, is what the mistake goes into. A title no two words of which tell it from all but nine others is passed over.
 */
function drawQuestions(random: Random, titles: ReadonlyMap<string, string>): { questions: Question[]; passedOver: number } {
  const designsWith = new Map<string, Set<string>>()
  for (const [designId, title] of titles) {
    for (const word of wordsOf(title)) designsWith.set(word, (designsWith.get(word) ?? new Set()).add(designId))
  }
  const shared = (words: readonly string[]): number => {
    const [first, ...rest] = words.map((word) => designsWith.get(word) ?? new Set<string>())
    return [...(first ?? [])].filter((id) => rest.every((ids) => ids.has(id))).length
  }
  const questions: Question[] = []
  let passedOver = 0
  for (const designId of random.shuffle([...titles.keys()])) {
    if (questions.length === questionCount) break
    const words = [...new Set(wordsOf(titles.get(designId) as string))]
    const long = random.shuffle(words.filter((word) => word.length >= fewestLetters))
    const choices = [
      ...long.map((word) => [word]),
      ...long.flatMap((word) => words.filter((one) => one !== word).map((one) => [word, one])),
    ]
    const chosen = choices.find((choice) => shared(choice) <= firstHits)
    const word = chosen?.[0]
    const spellings = word === undefined ? [] : mistakes.map((mistake) => misspelt(random, word, mistake))
    if (!chosen || spellings.includes(null)) {
      passedOver += 1
      continue
    }
    // In the order of the title, as a person types them.
    const asked = words.filter((one) => chosen.includes(one))
    const wrong = Object.fromEntries(
      mistakes.map((mistake, index) => [mistake, asked.map((one) => (one === word ? spellings[index] : one)).join(' ')]),
    ) as Question['wrong']
    questions.push({ designId, right: asked.join(' '), wrong })
  }
  return { questions, passedOver }
}

async function run(): Promise<Measurement[]> {
  const { answers } = await madeCollection('shop')
  const titles = new Map([...answers.world.designs.values()].map(({ design }) => [design.id, design.title]))
  const folded = [...titles.values()].map(textKey)
  const { questions, passedOver } = drawQuestions(seededRandom('search bench'), titles)
  const oneWord = questions.filter(({ right }) => !right.includes(' ')).length
  console.log(
    `search: ${questions.length} titles, ${oneWord} asked for by one word, the others by two; ${passedOver} passed over`,
  )

  const times = { right: [] as number[], wrong: [] as number[], scan: [] as number[] }
  const isFound = (asked: string, designId: string, into: number[]): boolean => {
    let isThere = false
    into.push(
      timeMs(() => {
        const { hits } = answers.search.search(asked, { limit: firstHits, noun: 'design' })
        isThere = hits.some(({ id }) => id === `design:${designId}`)
      }),
    )
    return isThere
  }
  for (const { right, wrong } of questions.slice(0, 50)) {
    for (const asked of [right, ...Object.values(wrong)]) answers.search.search(asked, { limit: firstHits, noun: 'design' })
  }
  let foundRight = 0
  const foundWrong = Object.fromEntries(mistakes.map((mistake) => [mistake, 0])) as Record<Mistake, number>
  for (const { designId, right, wrong } of questions) {
    if (isFound(right, designId, times.right)) foundRight += 1
    for (const mistake of mistakes) if (isFound(wrong[mistake], designId, times.wrong)) foundWrong[mistake] += 1
    const words = right.split(' ')
    times.scan.push(timeMs(() => void folded.filter((title) => words.every((word) => title.includes(word))).length))
  }

  const share = (count: number) => (100 * count) / questions.length
  const rate = (name: string, count: number): Measurement => ({
    name,
    ours: share(count),
    against: share(foundRight),
    ratio: count / foundRight,
    unit: '%',
    samples: questions.length,
    oursRange: null,
    againstRange: null,
    goal: null,
  })
  const latency = (name: string, samples: readonly number[], percent: number): Measurement => {
    const [ours, against] = [percentile(samples, percent), percentile(times.scan, percent)]
    return {
      name,
      ours,
      against,
      ratio: against / ours,
      unit: 'ms',
      samples: samples.length,
      oursRange: [Math.min(...samples), Math.max(...samples)],
      againstRange: [Math.min(...times.scan), Math.max(...times.scan)],
      goal: null,
    }
  }
  const foundWrongMean = mistakes.reduce((sum, mistake) => sum + foundWrong[mistake], 0) / mistakes.length
  return [
    {
      ...rate('found among the first ten: one mistake of any of the three kinds, against spelt right', foundWrongMean),
      samples: questions.length * mistakes.length,
      goal: { words: 'at most 2 points less', isMet: share(foundRight) - share(foundWrongMean) <= 2 },
    },
    ...mistakes.map((mistake) => rate(`found among the first ten: ${mistake}, against spelt right`, foundWrong[mistake])),
    latency('spelt right, p50', times.right, 0.5),
    latency('spelt right, p95', times.right, 0.95),
    latency('one mistake, p50', times.wrong, 0.5),
    latency('one mistake, p95', times.wrong, 0.95),
  ]
}

export const search: Bench = {
  name: 'search',
  about: [
    'The search index of the shop-size collection asked for designs by a word of their title, spelt right and with one mistake at a random place: another letter, a letter left out, two letters swapped. A word that more than ten titles share cannot bring each of them among the first ten, so a title is asked for by one of its words (five letters or more) when at most ten titles have it, and otherwise by two that at most ten have together, one of the two misspelt.',
    'Time is held against a floor: a scan of all titles for the very words, which finds nothing that is misspelt and puts nothing in order.',
  ],
  run,
}
