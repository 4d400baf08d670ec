import type { Locator, Page, Request } from 'playwright-core'

/** What an errand takes: things done, screens of scrolling until what is wanted is in sight, and answers of the server waited for, one after another. */
export type Effort = { steps: number; screens: number; answers: number }

/**
 * A hand that counts. One step is a tap, a chord of keys (each press of Tab too), or a field filled with its whole text. Where the target
 * is not in sight, the way to it is added, in heights of the screen; and every request that had to be made after another had been answered.
 * What Next fetches of the program itself is not an answer: it is kept after the first time.
 */
export class CountingHand {
  readonly page: Page
  private steps = 0
  private screens = 0
  private answers = 0
  private open = new Set<Request>()

  constructor(page: Page) {
    this.page = page
    page.on('request', (request) => {
      const isAnswer = request.resourceType() === 'document' || request.resourceType() === 'fetch'
      if (!isAnswer || request.url().includes('/_next/')) return
      if (this.open.size === 0) this.answers += 1
      this.open.add(request)
    })
    const close = (request: Request) => this.open.delete(request)
    page.on('requestfinished', close)
    page.on('requestfailed', close)
  }

  /** Nothing before this counts: the errand begins. */
  begin() {
    this.steps = 0
    this.screens = 0
    this.answers = 0
  }

  effort(): Effort {
    return { steps: this.steps, screens: Math.round(this.screens * 10) / 10, answers: this.answers }
  }

  async tap(target: Locator) {
    await this.look(target)
    this.steps += 1
    await target.first().click()
  }

  async fill(target: Locator, text: string) {
    await this.look(target)
    this.steps += 1
    await target.first().fill(text)
  }

  async choose(target: Locator, label: string) {
    await this.look(target)
    this.steps += 1
    await target.first().selectOption({ label })
  }

  /** A chord: `Control+k`, `Enter`. */
  async press(chord: string) {
    this.steps += 1
    await this.page.keyboard.press(chord)
  }

  /** Type into the field that has the caret. @throws Error where none has */
  async type(text: string) {
    const field = this.page.locator('input:focus, textarea:focus')
    await field.waitFor()
    this.steps += 1
    await this.page.keyboard.type(text)
  }

  /** Tab by Tab, as somebody without a mouse goes; then Enter. */
  async tabAndEnter(target: Locator, mostTabs = 80) {
    await target.first().waitFor()
    for (let presses = 0; presses <= mostTabs; presses++) {
      if (await target.first().evaluate((element) => element === document.activeElement)) {
        await this.look(target)
        await this.press('Enter')
        return
      }
      await this.press('Tab')
    }
    throw new Error(`not reached in ${mostTabs} presses of Tab: ${target}`)
  }

  /** What the errand was for: it is there, and is scrolled to. */
  async see(target: Locator) {
    await this.look(target)
  }

  /** A page that has just come may be drawn once more while one looks. */
  private async look(target: Locator) {
    await target.first().waitFor()
    const beyond = await target.first().evaluate((element) => {
      const { top, bottom } = element.getBoundingClientRect()
      return Math.max(0, bottom - window.innerHeight, -top) / window.innerHeight
    })
    this.screens += beyond
    if (beyond > 0) await target.first().evaluate((element) => element.scrollIntoView({ block: 'center' }))
  }
}
