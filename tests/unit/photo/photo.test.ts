import { describe, expect, it } from 'vitest'
import { thumbWidthPx } from '#lib/photo/photo-look'
import { avifThumbName, isPhotoFile, isPhotoName, photoOfFile, thumbName } from '#lib/photo/photo-name'

const id = '019ad4d1-6c1e-7bf1-8c4e-3a9b1d2e4f50'

describe('names of a photo’s files', () => {
  it('lead from the photo to its small ones and back', () => {
    expect([thumbName(`${id}.webp`), avifThumbName(`${id}.webp`)]).toEqual([`${id}-thumb.webp`, `${id}-thumb.avif`])
    for (const name of [`${id}.webp`, `${id}-thumb.webp`, `${id}-thumb.avif`]) {
      expect(isPhotoFile(name)).toBe(true)
      expect(photoOfFile(name)).toBe(`${id}.webp`)
    }
    expect([isPhotoName(`${id}.webp`), isPhotoName(`${id}-thumb.webp`)]).toEqual([true, false])
  })

  it.each([`${id}.avif`, `${id}.webp.part`, `../${id}.webp`, `${id}-thumb.avif/`, `${id}-thumb.png`, `${id}.webp\n`])(
    'are no others: %j',
    (name) => {
      expect(isPhotoFile(name)).toBe(false)
    },
  )
})

describe('the width of a small one', () => {
  it.each([
    [2_000, 1_000, 480],
    [1_000, 2_000, 240],
    [300, 200, 300],
    [2_000, 1, 480],
    [1, 2_000, 1],
  ])('of %i × %i is %i', (widthPx, heightPx, expected) => {
    expect(thumbWidthPx({ widthPx, heightPx, blurBase64: '' })).toBe(expected)
  })
})
