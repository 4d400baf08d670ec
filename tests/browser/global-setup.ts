import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { TestProject } from 'vitest/node'
import { migrate } from '../../prisma/migrate.mjs'
import { launchChromium } from './chromium'
import { loadSample } from './load-sample'
import { startServer } from './server'
import { endSharedServers } from './shared-house'

/** The screens are built and the sample is loaded once, before the files that use them start side by side. */
export default async function buildScreens(project: TestProject): Promise<() => Promise<void>> {
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-houses-'))
  const [emptyFolder, sampleFolder, housesFolder] = ['empty', 'sample', 'houses'].map((name) => path.join(folder, name)) as [
    string,
    string,
    string,
  ]
  mkdirSync(housesFolder)
  await migrate(`file:${path.join(emptyFolder, 'larder.db')}`)
  const server = await startServer({ dataFolder: sampleFolder })
  const browser = await launchChromium()
  const page = await browser.newPage({ baseURL: server.url })
  await loadSample(page)
  await browser.close()
  await server.stop()
  project.provide('emptyFolder', emptyFolder)
  project.provide('sampleFolder', sampleFolder)
  project.provide('housesFolder', housesFolder)
  return async () => {
    await endSharedServers(housesFolder)
    rmSync(folder, { recursive: true, force: true })
  }
}
