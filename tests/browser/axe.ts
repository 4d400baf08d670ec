import { AxeBuilder } from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { expect } from 'vitest'

/** Everything axe can judge by rule, at levels A and AA, and what it calls best practice. */
const everyTag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']
/** What is judged by colours, which takes axe longer than all the rest. */
const colourRules = ['color-contrast', 'link-in-text-block']

type Violation = { id: string; nodes: { html: string; failureSummary?: string }[] }

const told = (page: Page, violations: readonly Violation[]): string[] =>
  violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${page.url()} ${id}: ${html.slice(0, 200)} ${failureSummary ?? ''}`),
  )

/**
 * What axe finds wrong with the page by any rule, or by any but those of colour.
 *
 * Judged in the page itself, and only what is wrong reported: the same faults in a quarter of the time that it takes to send every node
 * to a page of axe's own. That one is there for frames of other sites, and there are none.
 */
export async function findViolations(page: Page, { but = [] }: { but?: 'colours' | [] } = {}): Promise<string[]> {
  expect(page.frames()).toHaveLength(1)
  const axe = new AxeBuilder({ page })
    .setLegacyMode()
    .options({ resultTypes: ['violations'] })
    .withTags(everyTag)
  const { violations } = await axe.disableRules(but === 'colours' ? colourRules : []).analyze()
  return told(page, violations)
}

/**
 * What axe finds wrong with colours, in text that does not look just like text judged before: the same tags and classes around it, and the
 * same colours, size and weight. Only on a page where axe is already, since `findViolations`.
 */
export function colourJudge(): (page: Page) => Promise<string[]> {
  const judged = new Set<string>()
  return async (page) => {
    const looks = await page.evaluate(() => {
      const holdsText = (element: Element) =>
        [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && (node.textContent ?? '').trim() !== '')
      const elements = [...document.body.querySelectorAll('*')].filter(
        (element) => holdsText(element) && element.getClientRects().length > 0,
      )
      return elements.map((element, at) => {
        element.setAttribute('data-look', String(at))
        const { color, fontSize, fontWeight } = getComputedStyle(element)
        const around: string[] = []
        for (let step: Element | null = element; step !== null; step = step.parentElement) {
          const { backgroundColor, backgroundImage, opacity } = getComputedStyle(step)
          around.push(`${step.tagName}.${step.className} ${backgroundColor} ${backgroundImage} ${opacity}`)
        }
        return `${color} ${fontSize} ${fontWeight} ${around.join(' < ')}`
      })
    })
    // One of each look: the rest of a long table looks like its first row.
    const fresh = looks.flatMap((look, at) => {
      if (judged.has(look)) return []
      judged.add(look)
      return [at]
    })
    if (fresh.length === 0) return []
    const violations = await page.evaluate(
      async ({ rules, places }) => {
        type Axe = { run: (context: unknown, options: unknown) => Promise<{ violations: Violation[] }> }
        const { axe } = window as unknown as { axe: Axe }
        const run = await axe.run(
          { include: places.map((place) => [`[data-look="${place}"]`]) },
          { runOnly: { type: 'rule', values: rules }, resultTypes: ['violations'] },
        )
        return run.violations.map(({ id, nodes }) => ({
          id,
          nodes: nodes.map(({ html, failureSummary }) => ({ html, failureSummary })),
        }))
      },
      { rules: colourRules, places: fresh },
    )
    return told(page, violations)
  }
}

/** Of parts alike, so many stay. */
const alikeKept = 2

/**
 * Take out of the page all but the first two of parts that stand side by side and are built alike: the same tags, classes and attributes all
 * through, text in the same places. Of a table with four hundred rows two of each kind are left, and a rule that those keep the others
 * keep as well. What is named by its id from elsewhere stays.
 */
export async function keepFewOfEachShape(page: Page): Promise<void> {
  await page.evaluate((kept) => {
    const naming = ['for', 'aria-labelledby', 'aria-describedby', 'aria-controls', 'aria-owns', 'headers', 'list', 'form', 'href']
    const namers = new Map<string, Element[]>()
    for (const element of document.querySelectorAll(naming.map((name) => `[${name}]`).join()))
      for (const name of naming)
        for (const id of (element.getAttribute(name) ?? '').replace(/^#/, '').split(/\s+/))
          namers.set(id, [...(namers.get(id) ?? []), element])
    const isNamedFromElsewhere = (part: Element) =>
      [part, ...part.querySelectorAll('[id]')].some(
        ({ id }) => id !== '' && namers.get(id)?.some((element) => !part.contains(element)),
      )
    const shapes = new Map<string, number>()
    const shapeOf = (element: Element): number => {
      const seen = new Map<number, number>()
      const inside: number[] = []
      for (const child of [...element.children]) {
        const shape = shapeOf(child)
        const times = (seen.get(shape) ?? 0) + 1
        seen.set(shape, times)
        if (times <= kept || isNamedFromElsewhere(child)) inside.push(shape)
        else child.remove()
      }
      const holdsText = [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim())
      const telling = /^(?:class|role|type|scope|colspan|rowspan|aria-(?:expanded|pressed|checked|current|hidden))$/
      const attributes = [...element.attributes].map(({ name, value }) => {
        if (telling.test(name) || (name === 'style' && holdsText)) return `${name}=${value}`
        return value === '' ? `${name}=` : name
      })
      const shape = `${element.tagName} ${holdsText} ${attributes.sort().join(' ')}: ${inside.join(' ')}`
      const known = shapes.get(shape) ?? shapes.size
      shapes.set(shape, known)
      return known
    }
    shapeOf(document.body)
  }, alikeKept)
}
