import { describe, expect, it } from 'vitest'
import { momentOf } from '../../../app/_offline/moment'
import { type OfflineSaid, sayOffline } from '../../../app/_offline/say-offline'

const template =
  '<html lang="en-GB"><head><link rel="preload" as="script" href="/a.js"><script src="/a.js"></script></head><body>' +
  '<p class="x"><span data-offline-here="asked"></span></p><ul class="y" data-offline-here="hits" aria-label="Found"></ul>' +
  '<input data-offline-box="" name="q"><ul data-offline-here="pages"></ul><script>run("<p>")</script></body></html>'
const nothing: OfflineSaid = { kind: 'not-seen', pages: [], asked: '', hits: [], found: 0, leftOut: 0, knownAtMs: null }
const noon = new Date(2026, 10, 30, 12, 0).getTime()

describe('the page without a connection', () => {
  it('runs nothing, and says which of its sentences fits', () => {
    const said = sayOffline(template, nothing, noon)
    expect(said).not.toMatch(/script/)
    expect(said).toContain('<html data-offline="not-seen" lang="en-GB">')
    expect(sayOffline(template, { ...nothing, kind: 'search', asked: 'rook' }, noon)).toContain('data-offline="unknown"')
    expect(sayOffline(template, { ...nothing, kind: 'search', asked: 'rook', knownAtMs: noon }, noon)).toContain(
      'data-offline="nothing"',
    )
  })

  it('names what can be opened, with when it was seen', () => {
    const pages = [{ path: '/places', title: 'Places', seenAtMs: new Date(2026, 10, 30, 9, 5).getTime() }]
    expect(sayOffline(template, { ...nothing, pages }, noon)).toContain(
      '<ul data-offline-here="pages"><li><a href="/places">Places</a> <small>09:05</small></li></ul>',
    )
  })

  it('writes what people typed as text, never as part of the page', () => {
    const evil = '"><img src=x onerror=alert(1)> $& $1'
    const hit = { noun: 'design' as const, id: 'a', title: evil, note: evil, match: 'words' as const, place: null }
    const said = sayOffline(
      template,
      {
        ...nothing,
        kind: 'search',
        asked: evil,
        hits: [hit],
        found: 1,
        knownAtMs: noon,
        pages: [{ path: '/', title: evil, seenAtMs: noon }],
      },
      noon,
    )
    expect(said).not.toContain('<img')
    expect(said).toContain('value="&quot;&gt;&lt;img src=x onerror=alert(1)&gt; $&amp; $1"')
  })

  it('gives the day of a moment that is not of today', () => {
    expect(momentOf(new Date(2026, 10, 29, 14, 5).getTime(), noon, 'en-GB')).toMatch(/29 November.*14:05/)
    expect(momentOf(new Date(2026, 10, 30, 14, 5).getTime(), noon, 'en-GB')).toBe('14:05')
  })
})
