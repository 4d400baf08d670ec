import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Page } from 'playwright-core'
import { expect } from 'vitest'

const require = createRequire(import.meta.url)
/** The small build: half as long to read for each page. */
const axeSource = readFileSync(createRequire(require.resolve('@axe-core/playwright')).resolve('axe-core/axe.min.js'), 'utf8')

/** Everything axe can judge by rule, at levels A and AA, and what it calls best practice. */
const everyTag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']
/** What is judged by colours, which takes axe longer than all the rest. */
const colourRules = ['color-contrast', 'link-in-text-block']
/** What another width may change in the same page: sizes and distances, and what is hidden there, so what is named, headed and marked out. */
const layoutRules = [
  ...['target-size', 'scrollable-region-focusable', 'aria-hidden-focus', 'nested-interactive', 'region', 'bypass'],
  ...['heading-order', 'page-has-heading-one', 'empty-heading', 'empty-table-header', 'landmark-one-main', 'landmark-unique'],
  ...['link-name', 'button-name', 'label', 'select-name', 'summary-name', 'aria-command-name', 'aria-toggle-field-name'],
  ...['label-title-only', 'form-field-multiple-labels', 'label-content-name-mismatch', 'list'],
]

type Violation = { id: string; nodes: { html: string; failureSummary?: string }[] }
type Options = { runOnly: { type: 'rule' | 'tag'; values: string[] }; rules?: Record<string, { enabled: boolean }> }

/**
 * Run axe in the page itself, brought there once, with only what is wrong reported: the same faults in a quarter of the time that it takes to
 * send every node to a page of axe's own. That one is there for frames of other sites, and there are none.
 */
async function run(page: Page, options: Options, places: readonly string[] = []): Promise<string[]> {
  expect(page.frames()).toHaveLength(1)
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axeSource)
  const violations = await page.evaluate(
    async ({ options, places }) => {
      type Axe = { run: (context: unknown, options: unknown) => Promise<{ violations: Violation[] }> }
      const { axe } = window as unknown as { axe: Axe }
      const context = places.length === 0 ? document : { include: places.map((place) => [place]) }
      const found = await axe.run(context, { ...options, resultTypes: ['violations'] })
      return found.violations.map(({ id, nodes }) => ({
        id,
        nodes: nodes.map(({ html, failureSummary }) => ({ html, failureSummary })),
      }))
    },
    { options, places },
  )
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${page.url()} ${id}: ${html.slice(0, 200)} ${failureSummary ?? ''}`),
  )
}

/** What axe finds wrong with the page by any rule, by any but those of colour, or by those another width may change. */
export function findViolations(
  page: Page,
  { by = 'all' }: { by?: 'all' | 'all but colours' | 'layout' } = {},
): Promise<string[]> {
  if (by === 'layout') return run(page, { runOnly: { type: 'rule', values: layoutRules } })
  const off = by === 'all' ? [] : colourRules
  return run(page, {
    runOnly: { type: 'tag', values: everyTag },
    rules: {
      ...Object.fromEntries(off.map((rule) => [rule, { enabled: false }])),
      // Axe is not sure of it yet, and WCAG 2.5.3 is: who speaks to a page says what stands on the button.
      'label-content-name-mismatch': { enabled: true },
    },
  })
}

/**
 * What axe finds wrong with colours by light and in the dark, in text that does not look just like text judged before on any page: the
 * same ink, size and weight on the same ground. The dark is asked for only where there is some: each colour is a name with two values
 * (app/_ui/tokens.css), so what looks alike by light does in the dark. The page is left in the dark then.
 *
 * Where something stands over something else its ground cannot be told by what it is in: there the tags and classes around it count too.
 */
export function colourJudge(): (page: Page) => Promise<{ light: string[]; dark: string[] }> {
  const judged = new Set<string>()
  return async (page) => {
    const looks = await page.evaluate(() => {
      type Ground = { colours: string; tags: string; isLaidOver: boolean }
      const grounds = new Map<Element, Ground>()
      const groundOf = (element: Element): Ground => {
        const known = grounds.get(element)
        if (known) return known
        const around = element.parentElement ? groundOf(element.parentElement) : { colours: '', tags: '', isLaidOver: false }
        const { backgroundColor, backgroundImage, opacity, position } = getComputedStyle(element)
        const isClear = backgroundColor === 'rgba(0, 0, 0, 0)' && backgroundImage === 'none' && opacity === '1'
        const ground = {
          colours: isClear ? around.colours : `${backgroundColor} ${backgroundImage} ${opacity} < ${around.colours}`,
          tags: `${element.tagName}.${element.getAttribute('class') ?? ''} < ${around.tags}`,
          isLaidOver: around.isLaidOver || /absolute|fixed|sticky/.test(position),
        }
        grounds.set(element, ground)
        return ground
      }
      const holdsText = (element: Element) =>
        [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && (node.textContent ?? '').trim() !== '')
      const elements = [...document.body.querySelectorAll('*')].filter(
        (element) => holdsText(element) && element.getClientRects().length > 0,
      )
      return elements.map((element, at) => {
        element.setAttribute('data-look', String(at))
        const { color, fontSize, fontWeight, textShadow, textDecorationLine } = getComputedStyle(element)
        const { colours, tags, isLaidOver } = groundOf(element)
        // A link is told from the words around it.
        const link = element.closest('a[href]')
        const words = link?.parentElement ? getComputedStyle(link.parentElement).color : ''
        const isTold = link ? `${words} ${textDecorationLine} ${link.parentElement?.tagName} ${link.getAttribute('class')}` : ''
        const isOff = element.closest('[disabled], [aria-disabled="true"], fieldset:disabled') !== null
        return [color, fontSize, fontWeight, textShadow, colours, isLaidOver ? tags : '', isTold, isOff].join(' | ')
      })
    })
    // One of each look: the rest of a long table looks like its first row.
    const fresh = looks.flatMap((look, at) => {
      if (judged.has(look)) return []
      judged.add(look)
      return [`[data-look="${at}"]`]
    })
    if (fresh.length === 0) return { light: [], dark: [] }
    const judge = () => run(page, { runOnly: { type: 'rule', values: colourRules } }, fresh)
    const light = await judge()
    await page.emulateMedia({ colorScheme: 'dark' })
    return { light, dark: await judge() }
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
