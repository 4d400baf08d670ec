import { describe, expect, it } from 'vitest'
import { readScanned, scannedNouns, scannedPath } from '#lib/label/read-scanned'

const id = '01a22931-8ada-73f7-a3f1-b0a8c45d89c0'

describe('what a code says', () => {
  it.each(scannedNouns)('knows the link on a label of a %s', (noun) => {
    expect(readScanned(`http://larder.example:3000${scannedPath({ noun, id })}`)).toEqual({ kind: 'link', noun, id })
  })

  it('keeps page and id alone, whatever address a label was printed with', () => {
    expect(readScanned(`  https://shop.example/larder/places/${id.toUpperCase()}\n`)).toEqual({ kind: 'link', noun: 'place', id })
    expect(readScanned(`https://elsewhere.example/cloth/${id}`)).toEqual({ kind: 'link', noun: 'cloth', id })
  })

  it.each([
    'javascript:alert(1)//places/',
    `javascript://x/places/${id}`,
    `data:text/html,<script>x</script>/places/${id}`,
    `//shop.example/places/${id}`,
    `/places/${id}`,
    `http://shop.example/places/${id}?next=https://elsewhere.example`,
    `http://shop.example/places/${id}#x`,
    `http://shop.example/places/${id}/edit`,
    `http://shop.example/places/../settings/${id}`,
    `http://shop.example@elsewhere.example/places/${id}`,
    `http://shop.example\\@elsewhere.example/places/${id}`,
    `http://shop.example/settings/${id}`,
    `http://shop.example/constructor/${id}`,
    `http://shop.example/__proto__/${id}`,
    'http://shop.example/places/new',
    'http://shop.example/places/------------------------------------',
    `http://shop.example/${'x'.repeat(400)}/places/${id}`,
    'T2.1-14',
    '0017',
    '',
  ])('takes %s for text', (text) => {
    expect(readScanned(text).kind).toBe('text')
  })

  it('shows text without what would break lines or turn the direction of writing, and cuts what is long', () => {
    expect(readScanned('safe\u202Egnp.exe\r\n\u0000\u2028end\u200B')).toEqual({ kind: 'text', text: 'safe gnp.exe end' })
    const long = readScanned('a'.repeat(3_000))
    expect(long.kind === 'text' && long.text.length).toBe(300)
  })
})
