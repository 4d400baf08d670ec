import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { TestProject } from 'vitest/node'
import { launchChromium } from './chromium'
import { loadSample } from './load-sample'
import { startServer } from './server'

declare module 'vitest' {
  export interface ProvidedContext {
    /** A data folder with the sample in it, to copy. */
    sampleFolder: string
  }
}

/** The screens are built and the sample is loaded once, before the files that use them start side by side. */
export default async function buildScreens(project: TestProject): Promise<() => void> {
  const sampleFolder = mkdtempSync(path.join(tmpdir(), 'larder-sample-'))
  const server = await startServer({ dataFolder: sampleFolder })
  const browser = await launchChromium()
  const page = await browser.newPage({ baseURL: server.url })
  await loadSample(page)
  await browser.close()
  await server.stop()
  project.provide('sampleFolder', sampleFolder)
  return () => rmSync(sampleFolder, { recursive: true, force: true })
}
