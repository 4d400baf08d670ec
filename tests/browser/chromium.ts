import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import chromiumFromNpm from '@sparticuz/chromium'
import { type Browser, chromium } from 'playwright-core'

/** The shell has no windows to draw: the same pages in a third of the time. */
const usualPlaces = [
  '/usr/bin/chromium-headless-shell',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
]

function installedChromium(): string | null {
  const found = [process.env.CHROMIUM_PATH, ...usualPlaces].find((file) => file !== undefined && existsSync(file))
  if (found) return found
  const which = spawnSync('which', ['chromium-headless-shell', 'chromium', 'chromium-browser'], { encoding: 'utf8' })
  return which.stdout?.split('\n').find(Boolean) ?? null
}

const quietArguments = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
]

/** The Chromium found on the machine, else the shell npm ships (Linux only). */
export async function launchChromium(moreArguments: readonly string[] = []): Promise<Browser> {
  return chromium.launch({
    executablePath: installedChromium() ?? (await chromiumFromNpm.executablePath()),
    args: [...quietArguments, ...moreArguments],
  })
}
