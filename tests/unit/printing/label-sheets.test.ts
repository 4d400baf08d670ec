import { describe, expect, it } from 'vitest'
import { checkLabelSheet, type LabelSheet, labelBoxes, labelSheets } from '../../../lib/printing/label-sheets'

const own = (over: Partial<LabelSheet> = {}): LabelSheet => ({
  ...{ paper: 'a4', columns: 3, rows: 8, widthMm: 70, heightMm: 37, leftMm: 0, topMm: 0.5, gapXMm: 0, gapYMm: 0 },
  ...over,
})

describe('label sheets', () => {
  it('name each of theirs once, by figures, and lie whole on their paper', () => {
    expect(new Set(labelSheets.map(({ key }) => key)).size).toBe(labelSheets.length)
    for (const sheet of labelSheets) {
      expect(sheet.name).toMatch(/^(?:A4|Letter), \d+ × \d+, [\d.⅓⅝½¾]+ × [\d.⅓⅝½¾]+ (?:mm|in \([\d.]+ × [\d.]+ mm\))$/)
      expect(checkLabelSheet(sheet)).toMatchObject({ ok: true })
      expect(sheet.leftMm).toBeGreaterThanOrEqual(0)
      expect(sheet.topMm).toBeGreaterThanOrEqual(0)
    }
  })

  it('fill three by eight of 70 × 37 mm from the left edge, half a millimetre from the head', () => {
    const sheet = labelSheets.find(({ name }) => name === 'A4, 3 × 8, 70 × 37 mm') as LabelSheet
    const boxes = labelBoxes(sheet)
    expect(boxes).toHaveLength(24)
    expect(boxes[0]).toEqual({ x: 0, y: 0.5, width: 70, height: 37 })
    // 2 × 70; 7 × 37 + 0.5
    expect(boxes[23]).toEqual({ x: 140, y: 259.5, width: 70, height: 37 })
  })

  it('refuse labels that run off the paper, saying by how much and where', () => {
    expect(checkLabelSheet(own())).toMatchObject({ ok: true })
    // 0.2 + 210
    expect(checkLabelSheet(own({ leftMm: 0.2 }))).toMatchObject({ ok: false, error: { kind: 'off-the-paper', side: 'right' } })
    // 0.5 + 8 × 37 + 7 × 1 = 303.5, of 297
    const foot = checkLabelSheet(own({ gapYMm: 1 }))
    expect(foot).toMatchObject({ ok: false, error: { kind: 'off-the-paper', side: 'foot' } })
    expect(!foot.ok && foot.error.kind === 'off-the-paper' && foot.error.byMm).toBeCloseTo(6.5, 9)
  })

  it('refuse labels too small to write on, and counts that are none', () => {
    expect(checkLabelSheet(own({ heightMm: 5 }))).toEqual({ ok: false, error: { kind: 'label-too-small' } })
    expect(() => checkLabelSheet(own({ columns: 0 }))).toThrow(RangeError)
  })
})
