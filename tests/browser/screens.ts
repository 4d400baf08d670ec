import { readdirSync } from 'node:fs'
import path from 'node:path'
import type { Page } from 'playwright-core'

const appFolder = path.resolve(import.meta.dirname, '../../app')

/** Every screen there is, by the files that make them: `/threads/[threadId]/edit`. */
export function listRoutes(): string[] {
  return readdirSync(appFolder, { recursive: true, encoding: 'utf8' })
    .map((file) => file.replaceAll('\\', '/'))
    .filter((file) => file === 'page.tsx' || file.endsWith('/page.tsx'))
    .map((file) => `/${file.replace(/\/?page\.tsx$/, '')}`)
    .sort()
}

/** Whether an address is one of a route: `[…]` stands for any one step of a path. */
export function isOfRoute(address: string, route: string): boolean {
  const { pathname } = new URL(address, 'http://larder')
  const steps = pathname.split('/')
  const pattern = route.split('/')
  return steps.length === pattern.length && pattern.every((part, at) => part.startsWith('[') || part === steps[at])
}

/** An id, or the number of a bag of kits. */
const idStep = /^(?:[0-9a-f]{8}-[0-9a-f-]{27}|\d+)$/

/** Addresses alike but for the ids in them show the same screen. */
const screenOf = (address: string): string =>
  new URL(address, 'http://larder').pathname
    .split('/')
    .map((step) => (idStep.test(step) ? ':id' : step))
    .join('/')

/** Answers a download or a sheet to print, or leads on to another screen: nothing to look at. */
const isNoScreen = /^\/(?:photos|bring-in\/examples|api)\/|\/refused$|\.pdf(?:\?|$)/

/**
 * Addresses that show every screen: those given, and one for every other that a link leads to from those looked at so far.
 *
 * @param starts  Those that no link leads to have to be among them.
 */
export function screensToSee(starts: readonly string[]) {
  const known = new Set(starts.map(screenOf))
  const found = [...starts]
  let looked = 0
  return {
    found: found as readonly string[],
    next: (): string | undefined => found[looked++],
    /** Take note of the screens that the page open now leads to. */
    follow: async (page: Page): Promise<void> => {
      const hrefs = await page
        .locator('a[href]:not([download])')
        .evaluateAll((links) => links.map((link) => link.getAttribute('href') ?? ''))
      for (const link of hrefs.map((href) => href.replace(/#.*$/, ''))) {
        if (!link.startsWith('/') || known.has(screenOf(link)) || isNoScreen.test(link)) continue
        known.add(screenOf(link))
        found.push(link)
      }
    },
  }
}
