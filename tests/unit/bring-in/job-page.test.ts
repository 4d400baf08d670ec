import { renderToStaticMarkup } from 'react-dom/server'
import { afterAll, describe, expect, it, vi } from 'vitest'
import type { ImportProgress } from '#lib/db/importing/import-service'

const job = vi.hoisted(() => ({ progress: null as ImportProgress | null }))
vi.mock('#lib/db/importing/import-jobs', () => ({ importProgress: async () => job.progress }))
vi.mock('../../../app/bring-in/actions', () => ({ stopAction: async () => ({ status: 'done' }) }))

// Files of a group share what is loaded: the stand-ins are seen by what is loaded anew, and by nothing after this file.
vi.resetModules()
const { default: JobPage } = await import('../../../app/bring-in/jobs/[jobId]/page')

afterAll(() => {
  vi.resetModules()
})

const stagedId = '0190aaaa-0000-7000-8000-000000000000'

async function show(progress: ImportProgress | null, search: Record<string, string> = { from: stagedId }) {
  job.progress = progress
  return renderToStaticMarkup(await JobPage({ params: Promise.resolve({ jobId: 'job' }), searchParams: Promise.resolve(search) }))
}

describe('the page of an import that ended', () => {
  it('says why it was refused, that nothing was changed, and leads back to the file', async () => {
    const html = await show({ state: 'refused', refusal: { kind: 'no-such-file', stagedId } })
    expect(html).toContain('an uploaded file is kept for a day')
    expect(html).toContain('Nothing was changed.')
    expect(html).toContain(`href="/bring-in/${stagedId}"`)
  })

  it('says that it was stopped', async () => {
    expect(await show({ state: 'stopped' })).toContain('What was not yet written is left as it was.')
  })

  it('gives the number of an error, and nothing of the error itself', async () => {
    expect(await show({ state: 'failed', errorId: 'e-77' })).toContain('e-77')
  })

  it('says so when nobody knows of it', async () => {
    expect(await show(null)).toContain('Nothing is known of this any more')
  })

  it('leads to the result once it is done, and for the sample to what it brought', async () => {
    const done = { state: 'done', importId: 'i-1', counts: { added: 1, changed: 0, same: 0, refused: 0 } } as const
    await expect(show(done)).rejects.toMatchObject({ digest: expect.stringContaining('/bring-in/results/i-1?from=') })
    await expect(show(done, { sample: '1' })).rejects.toMatchObject({ digest: expect.stringContaining('/bring-in/sample') })
  })
})
