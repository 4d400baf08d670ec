import type { Locator, Page } from 'playwright-core'

/** More presses than this to get somewhere on one screen would be too many for a person too. */
const mostTabs = 60

/** Press Tab until the caret is on it, seeing on the way that one can see where one is. */
export async function tabTo(page: Page, target: Locator) {
  await target.first().waitFor()
  for (let presses = 0; presses < mostTabs; presses++) {
    if (await target.first().evaluate((element) => element === document.activeElement)) return
    await page.keyboard.press('Tab')
    const isSeen = await page.evaluate(() => {
      const at = document.activeElement
      if (!at || at === document.body) return true
      const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(at)
      return (outlineStyle !== 'none' && outlineWidth !== '0px') || boxShadow !== 'none'
    })
    if (!isSeen) throw new Error(`no focus mark on ${await page.locator(':focus').evaluate((element) => element.outerHTML)}`)
  }
  throw new Error(`not reached in ${mostTabs} presses of Tab: ${target}`)
}

export async function typeInto(page: Page, target: Locator, text: string) {
  await tabTo(page, target)
  await page.keyboard.type(text)
}

export async function press(page: Page, target: Locator) {
  await tabTo(page, target)
  await page.keyboard.press('Enter')
}
