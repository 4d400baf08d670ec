import sharp from 'sharp'
import { describe, expect, it } from 'vitest'
import { type InsuranceSheet, insurancePages, pictureMm } from '#lib/printing/insurance-sheet'
import { insurancePdf } from '#lib/printing/pdf/insurance-pdf'
import { type ReadPage, readPdf } from './read-pdf'

const aSheet = (over: Partial<InsuranceSheet> = {}): InsuranceSheet => ({
  ...{ title: 'Insurance list', lines: ['Hanne Drewitt', 'Mon 30 Nov 2026'], picturedHead: 'Dear', noPicture: 'no photograph' },
  before: [
    {
      kind: 'table',
      columns: [
        { head: 'Class', share: 5 },
        { head: 'To replace', share: 2, isRight: true },
      ],
      rows: [['In all', '£ 10,543.00']],
    },
  ],
  pictured: [
    { lines: ['Rook Hill in Snow', '1 piece: £ 140.00'], picture: 'rook' },
    { lines: ['The Ropewalk Sampler'], picture: null },
  ],
  after: [],
  footer: 'Not for sharing.',
  pageOf: (page, pages) => `${page} of ${pages}`,
  ...over,
})
const options = { paper: 'a4' as const, createdAt: new Date('2026-11-30T09:00:00Z') }
const wordsOf = (pages: readonly ReadPage[]) => pages.flatMap(({ words }) => words.map(({ text }) => text)).join('\n')

describe('the insurance list on paper', () => {
  it('has its words as text and its photograph in the file', async () => {
    const rook = await sharp({ create: { width: 60, height: 40, channels: 3, background: '#8e2f2b' } })
      .jpeg()
      .toBuffer()
    const pdf = await insurancePdf(aSheet(), { ...options, pictures: new Map([['rook', rook]]) })
    const { pages } = await readPdf(pdf)
    const text = wordsOf(pages)
    for (const words of ['Insurance list', 'In all', '£ 10,543.00', 'Rook Hill in Snow', 'no photograph', '1 of 1'])
      expect(text).toContain(words)
    // The JPEG is in it byte for byte, as a PDF holds it (ISO 32000-1, 7.4.8).
    expect(pdf.includes(rook)).toBe(true)
    const bare = await insurancePdf(aSheet(), { ...options, pictures: new Map() })
    expect(bare.includes(rook)).toBe(false)
  })

  it('keeps each picture whole on its page, within the margins', () => {
    const measure = ({ text, size }: { text: string; size: number }) => text.length * size * 0.5
    const pictured = Array.from({ length: 23 }, (_, at) => ({ lines: [`Piece ${at}`], picture: String(at) }))
    const pages = insurancePages(aSheet({ pictured }), 'letter', measure)
    const pictures = pages.flatMap((page) => page.marks.flatMap((mark) => (mark.kind === 'picture' ? [{ mark, page }] : [])))
    expect(pictures.map(({ mark }) => mark.name)).toEqual(pictured.map(({ picture }) => picture))
    for (const { mark, page } of pictures) {
      expect([mark.width, mark.height]).toEqual([pictureMm.width, pictureMm.height])
      expect(mark.y).toBeGreaterThanOrEqual(12)
      expect(mark.y + mark.height).toBeLessThanOrEqual(page.heightMm - 12)
    }
  })
})
