import { describe, expect, it } from 'vitest'
import { findPart, uploadsOf } from '#lib/archive/part-name'

const id = '019ad4d1-6c1e-7bf1-8c4e-3a9b1d2e4f50'

describe('names of the parts of an archive', () => {
  it('are those that are given here', () => {
    expect(findPart('manifest.json')).toEqual({ kind: 'manifest' })
    expect(findPart('tables/KeyLine.jsonl')).toEqual({ kind: 'table', table: 'KeyLine' })
    expect(findPart('csv/threads.csv')).toEqual({ kind: 'csv' })
    expect(findPart(`uploads/photos/${id}-thumb.webp`)).toEqual({ kind: 'upload', folder: 'photos', name: `${id}-thumb.webp` })
    expect(findPart(`uploads/files/${id}.pdf`)).toEqual({ kind: 'upload', folder: 'files', name: `${id}.pdf` })
  })

  it.each([
    '',
    '/manifest.json',
    './manifest.json',
    'Manifest.json',
    'tables/Nothing.jsonl',
    'tables/../manifest.json',
    'csv/../../x.csv',
    'csv/threads.csv/x',
    'csv/threads.exe',
    'csv//threads.csv',
    'uploads/photos/x.webp',
    `uploads/photos/../${id}.webp`,
    `uploads/photos/${id}.webp\0`,
    `uploads/photos/${id}.webp/`,
    `uploads/photos/${id}.svg`,
    `uploads/files/${id}.html`,
    `uploads/other/${id}.webp`,
    `uploads\\photos\\${id}.webp`,
    'C:/Windows/a.csv',
  ])('are no others: %j', (name) => {
    expect(findPart(name)).toBeNull()
  })

  it('of a photo are two, of anything else one', () => {
    expect(uploadsOf('photos', `${id}.webp`)).toEqual([`uploads/photos/${id}.webp`, `uploads/photos/${id}-thumb.webp`])
    expect(uploadsOf('files', `${id}.pdf`)).toEqual([`uploads/files/${id}.pdf`])
    expect(uploadsOf('photos', 'old.jpg')).toEqual(['uploads/photos/old.jpg'])
  })
})
