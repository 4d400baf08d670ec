import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { keepCutPlan } from '#lib/db/cut-plan/keep-cut-plan'
import { newId } from '#lib/db/new-id'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import { layoutOf, offcut, up, wanted } from '../unit/cloth/cut-layouts'
import { readPdf } from '../unit/printing/read-pdf'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { theShop } from './things'

// Nobody has chosen whose goods to look at.
vi.mock('next/headers', () => ({ cookies: async () => new Map() }))
// Files of a group share what is loaded: the stand-in is seen by what is loaded anew, and by nothing after this file.
vi.resetModules()
const { GET } = await import('../../app/cloth/cut/[planId]/sheet.pdf/route')
afterAll(() => {
  vi.resetModules()
})

const ask = (planId: string, query = '') =>
  GET(new Request(`http://larder.test/cloth/cut/${planId}/sheet.pdf${query}`), { params: Promise.resolve({ planId }) })

describeOnEachEngine('the sheet of a plan of cuts', ({ open }) => {
  const shop = theShop()
  let small: string
  let bolt: string

  beforeAll(async () => {
    await open().prisma.owner.create({ data: shop })
    small = await keep('Côte & “Kits”\r\nX: 1', 18, 12)
    bolt = await keep('A bolt', 54, 360)
  })

  /** A plan that cuts a square of 8 in the full height from a piece, for nothing in particular. */
  async function keep(title: string, width: number, height: number): Promise<string> {
    const id = newId()
    const size = { widthUm: width * UM_PER_INCH, heightUm: height * UM_PER_INCH }
    await open().prisma.clothPiece.create({
      data: {
        ...{
          id,
          ownerId: shop.id,
          name: 'Ostravane evenweave',
          colourName: 'Oat',
          weave: 'single',
          label: `E-${width}`,
          ...size,
        },
        ...{ endsThreads: 28, endsPerUm: UM_PER_INCH, picksThreads: 28, picksPerUm: UM_PER_INCH },
        ...{ isSquared: true, sizeCertainty: 'measured' },
      },
    })
    const layout = layoutOf(id, width, height, up(8, wanted('w1'), offcut))
    const wish = {
      ...{ kind: 'size' as const, widthUm: 8 * UM_PER_INCH, heightUm: size.heightUm, mayTurn: false },
      ...{ copies: 1, priority: 'wanted' as const, worth: 1 },
    }
    const measures = {
      leftOut: [],
      value: 1,
      cutCount: 1,
      wasteUm2: 0,
      largestOffcutsUm2: 0,
      valueBound: 1,
      bound: 0,
      isProved: true,
    }
    const { planId } = granted(
      await keepCutPlan({
        title,
        about: {
          asked: { wishes: [wish], pieceIds: null, objective: 'largest offcut', gapUm: 0, leastOffcutUm: 0, seed: 1 },
          wishes: [{ id: 'w1', title: '', designId: null, projectId: null, fitsSome: true }],
        },
        request: {
          ...{ pieces: [{ id, ...size }], wishes: [], objective: 'largest offcut' },
          ...{ gapUm: 0, leastOffcutUm: 0, seed: 1 },
        },
        plan: { layouts: [layout], ...measures },
      }),
    )
    return planId
  }

  it('is a PDF of the paper asked for, shown and never guessed at', async () => {
    const answer = await ask(small, '?paper=letter')
    expect(answer.status).toBe(200)
    expect(answer.headers.get('content-type')).toBe('application/pdf')
    expect(answer.headers.get('content-disposition')).toBe('inline; filename="cuts-cote-kits-x-1.pdf"')
    expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
    const { pages } = await readPdf(new Uint8Array(await answer.arrayBuffer()))
    expect(pages[0]?.heightMm).toBeCloseTo(279.4, 1)
    const words = pages.flatMap((page) => page.words.map(({ text }) => text)).join(' ')
    expect(words).toContain('E-18 · Ostravane evenweave, Oat')
    expect(words).toContain('The Oxmarsh Needle Room')
    expect(words).toContain('a plain size')
  })

  it('is a pattern in actual size where that is asked for', async () => {
    const { pages } = await readPdf(new Uint8Array(await (await ask(small, '?size=actual')).arrayBuffer()))
    // 457.2 × 304.8 mm: three sheets across, two down, and their map.
    expect(pages).toHaveLength(7)
    expect(pages[1]?.boxes.some(({ width, height }) => Math.abs(width - 203.2) < 0.1 && Math.abs(height - 304.8) < 0.1)).toBe(
      true,
    )
  })

  it('says what is wrong instead', async () => {
    const said = async (answer: Response) => [answer.status, await answer.text()]
    expect(await said(await ask(newId()))).toEqual([404, 'There is no such plan of cuts.'])
    expect(await said(await ask('../../etc/passwd'))).toEqual([404, 'There is no such plan of cuts.'])
    expect(await said(await ask(small, '?paper=a3'))).toEqual([400, expect.stringContaining('paper=a4 or paper=letter')])
    expect(await said(await ask(bolt, '?size=actual'))).toEqual([422, expect.stringContaining('more than 60 are not printed')])
  })
})
