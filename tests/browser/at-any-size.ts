import type { Page } from 'playwright-core'

// What WCAG 2.2 asks beyond what axe can judge, each as sentences of what is wrong with the page that is open.

/** Nothing is cut off at the side or has to be scrolled to sideways (1.4.10, and 1.4.4 where the page is narrow for being enlarged). */
export async function findSideways(page: Page): Promise<string[]> {
  const { wide, seen } = await page.evaluate(() => ({ wide: document.documentElement.scrollWidth, seen: window.innerWidth }))
  return wide > seen ? [`${page.url()} at ${seen} is ${wide} wide`] : []
}

/** Nothing fades, slides or scrolls by itself for whoever asked for less of it (2.3.3). */
export async function findMoving(page: Page): Promise<string[]> {
  const moving = await page.evaluate(() =>
    [document.documentElement, ...document.body.querySelectorAll('*')].flatMap((element) => {
      const { transitionDuration, animationName, animationDuration, scrollBehavior } = getComputedStyle(element)
      const takesTime = (durations: string) => durations.split(',').some((duration) => Number.parseFloat(duration) > 0)
      const isMoving =
        takesTime(transitionDuration) || (animationName !== 'none' && takesTime(animationDuration)) || scrollBehavior !== 'auto'
      return isMoving ? [element.outerHTML.slice(0, 120)] : []
    }),
  )
  return moving.map((element) => `${page.url()} moves: ${element}`)
}

/** Lines, words and letters set as far apart as 1.4.12 says: nothing is cut off and nothing sticks out at the side. Puts back what it sets. */
export async function findCutWhenSpaced(page: Page): Promise<string[]> {
  const cut = await page.evaluate(() => {
    const isCut = (element: Element): boolean => {
      const { overflowX, overflowY, position } = getComputedStyle(element)
      // One pixel, for those who hear the page.
      if (position === 'absolute' && element.clientWidth <= 1) return false
      const hides = (overflow: string) => overflow === 'hidden' || overflow === 'clip'
      return (
        (hides(overflowX) && element.scrollWidth > element.clientWidth + 1) ||
        (hides(overflowY) && element.scrollHeight > element.clientHeight + 1)
      )
    }
    const parts = [...document.body.querySelectorAll('*')].filter(
      (element) => !element.closest('svg') && !element.matches('input, select, textarea') && element.getClientRects().length > 0,
    )
    const already = new Set(parts.filter(isCut))
    const spaced = new CSSStyleSheet()
    spaced.replaceSync(
      '* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important } p { margin-bottom: 2em !important }',
    )
    document.adoptedStyleSheets = [spaced]
    const found = parts.filter((part) => !already.has(part) && isCut(part)).map((part) => part.outerHTML.slice(0, 160))
    const wide = document.documentElement.scrollWidth
    if (wide > window.innerWidth) found.push(`the page, ${wide} of ${window.innerWidth}`)
    document.adoptedStyleSheets = []
    return found
  })
  return cut.map((part) => `${page.url()} with text spaced cuts off: ${part}`)
}

/** More presses than this are not made on one screen. */
const mostTabs = 150

/** Whatever one tabs to is seen, with its mark, and not under what stands still while the page scrolls (2.4.7, 2.4.11): down the page, and up again. */
export async function findHiddenFocus(page: Page): Promise<string[]> {
  const hidden = new Set<string>()
  for (const key of ['Tab', 'Shift+Tab']) {
    for (let presses = 0; presses < mostTabs; presses++) {
      await page.keyboard.press(key)
      const at = await page.evaluate(() => {
        const focused = document.activeElement
        if (!focused || focused === document.body) return null
        // What fills a whole row is marked by something laid over it.
        const marks = [getComputedStyle(focused), getComputedStyle(focused, '::after')]
        const around = focused.closest('label') ?? focused.parentElement
        if (around) marks.push(getComputedStyle(around))
        const isMarked = marks.some(({ outlineStyle, outlineWidth }) => outlineStyle !== 'none' && outlineWidth !== '0px')
        const { left, right, top, bottom } = focused.getBoundingClientRect()
        const points = [0.1, 0.5, 0.9].flatMap((x) => [0.1, 0.5, 0.9].map((y) => [x, y] as const))
        const isSeen = points.some(([x, y]) => {
          const seen = document.elementFromPoint(left + (right - left) * x, top + (bottom - top) * y)
          return seen !== null && (focused.contains(seen) || seen.closest('label')?.contains(focused) === true)
        })
        const name = focused.outerHTML.slice(0, 120)
        return { isMarked, isSeen, name }
      })
      if (at === null) break
      if (!at.isMarked) hidden.add(`no mark of focus: ${at.name}`)
      if (!at.isSeen) hidden.add(`under something else after ${key}: ${at.name}`)
    }
  }
  return [...hidden].map((fault) => `${page.url()} ${fault}`)
}
