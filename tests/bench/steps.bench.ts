import { launchChromium } from '#tests/browser/chromium'
import { errands, startingPage, walkErrand } from '#tests/browser/errands-counted'
import { loadSample } from '#tests/browser/load-sample'
import { startServer } from '#tests/browser/server'
import type { Effort } from '#tests/browser/step-counter'
import type { Bench, Measurement } from './measurement'

const hands = [
  { name: 'phone', words: 'on the phone', viewport: { width: 390, height: 844 } },
  { name: 'desk', words: 'at the desk', viewport: { width: 1280, height: 900 } },
] as const

const restOf = ({ screens, answers }: Effort): string =>
  `${screens} screens scrolled, ${answers} ${answers === 1 ? 'answer' : 'answers'} waited for`

/** Every errand walked once each way, in a house of its own with the sample. */
async function run(): Promise<Measurement[]> {
  const server = await startServer()
  const browser = await launchChromium()
  try {
    await loadSample(await browser.newPage({ baseURL: server.url }))
    const measured: Measurement[] = []
    for (const hand of hands) {
      const page = await browser.newPage({ baseURL: server.url, viewport: hand.viewport })
      for (const errand of errands) {
        const [now, before, most] = [await walkErrand(page, errand[hand.name]), errand.before[hand.name], errand.most[hand.name]]
        measured.push({
          name: `${errand.name} ${hand.words}: ${restOf(now)}; before, ${restOf(before)}`,
          ours: now.steps,
          against: before.steps,
          ratio: before.steps / now.steps,
          unit: 'steps',
          samples: 1,
          oursRange: null,
          againstRange: null,
          goal: { words: `at most ${most}`, isMet: now.steps <= most },
        })
      }
    }
    return measured
  } finally {
    await browser.close()
    await server.stop()
  }
}

export const steps: Bench = {
  name: 'steps',
  about: [
    `What an errand takes: steps (a tap, a chord of keys, each press of Tab, a field filled with its whole text), counted by a hand that walks it on the sample, from ${startingPage}, which answers none of them; on a phone of 390 × 844 with one thumb, at a desk of 1280 × 900 without a mouse. Beside it how many heights of the screen are scrolled until what is wanted is in sight, and how many requests to the server are waited for, one after another.`,
    'The other side is the same errand as it was walked before the screens were changed for it, counted by the same hand and written down once. tests/browser/fewest-steps.test.ts holds every errand to its most.',
  ],
  run,
}
