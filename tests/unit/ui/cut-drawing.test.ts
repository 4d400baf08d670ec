import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { CutDrawing } from '#trade/cut-drawing'
import { cutNames } from '#words/cut-steps'
import { fatQuarter, layoutOf, up, wanted, waste } from '../cloth/cut-layouts'

const titles = new Map([
  ['eleven', 'Rook Hill in Snow'],
  ['eight', 'Seven Lanterns'],
  ['six', 'Kettle at Wend Cross'],
  ['plain', '10 × 10 in'],
])

const draw = (layout: ReturnType<typeof fatQuarter>, unit: 'in' | 'cm' = 'in') =>
  renderToStaticMarkup(createElement(CutDrawing, { layout, pieceName: 'L-12', names: cutNames([layout], titles), unit }))

describe('the drawing of a cut', () => {
  it('is a picture with a sentence of its own', () => {
    const html = draw(fatQuarter())
    const id = /role="img" aria-labelledby="([^"]+)"/.exec(html)?.[1]
    expect(html).toContain(`<title id="${id}">L-12, 18 × 27 in, head up: cut into`)
  })

  it('has beside it what every letter and offcut is', () => {
    const text = draw(fatQuarter())
      .replace(/^.*<\/svg>(?=<div)/s, '')
      .replace(/<[^>]+>/g, ' ')
      .replace(/\s+/g, ' ')
    expect(text).toContain('A Rook Hill in Snow 11 × 11 in')
    expect(text).toContain('B Kettle at Wend Cross 6 × 12 in')
    expect(text).toContain('C Seven Lanterns 8 × 8 in × 2')
    expect(text).toContain('offcut 1, 18 × 7 in')
  })

  it('takes its inks from the theme', () => {
    const html = draw(fatQuarter())
    expect(html).toContain('var(--madder)')
    expect(html).not.toMatch(/#[0-9a-f]{3,6}\b/i)
  })

  it('rules in the unit asked for', () => {
    expect(draw(fatQuarter(), 'cm')).toContain('centimetres')
  })

  it('says a plain size once in its list', () => {
    const html = draw(layoutOf('piece', 20, 10, up(10, wanted('plain'), waste)))
    expect(html.replace(/^.*<\/title>/s, '').split('10 × 10 in')).toHaveLength(3)
  })
})
