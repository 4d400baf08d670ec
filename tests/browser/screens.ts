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
 * Addresses that show every screen: those given, and one for every other that can be reached from them by following links.
 *
 * @param starts  Those that no link leads to have to be among them.
 */
export async function findScreens(page: Page, starts: readonly string[]): Promise<string[]> {
  const seen = new Set(starts.map(screenOf))
  const found = [...starts]
  for (let at = 0; at < found.length; at++) {
    await page.goto(found[at] as string)
    const hrefs = await page
      .getByRole('link', { includeHidden: true })
      .evaluateAll((links) => links.map((link) => (link.hasAttribute('download') ? '' : (link.getAttribute('href') ?? ''))))
    for (const link of hrefs.map((href) => href.replace(/#.*$/, ''))) {
      if (!link.startsWith('/') || seen.has(screenOf(link)) || isNoScreen.test(link)) continue
      seen.add(screenOf(link))
      found.push(link)
    }
  }
  return found
}
