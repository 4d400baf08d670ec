import type { SourceLine, TextPage } from '#lib/chart/page-text/page-text'

/** A file to be read; what it is goes by its bytes, the kind is what the person meant it to be. */
export type ReadingSource = { kind: 'pdf' | 'picture'; bytes: Uint8Array }

/** How far a reading is. `waiting`: another file is being read first. Pages from 1. */
export type ReadingProgress =
  | { step: 'waiting' | 'opening' }
  | { step: 'words' | 'drawing' | 'straightening' | 'reading' | 'laying-out'; page: number; pages: number }
  | { step: 'cover' }

/** How long each part took, in milliseconds, over all pages. */
export type ReadingParts = {
  opening: number
  /** Taking words that came with the file. */
  words: number
  /** Drawing pages that hold no words. */
  drawing: number
  straightening: number
  /** Telling letters from a picture. */
  reading: number
  layingOut: number
  cover: number
}

export type PageReading = {
  pages: TextPage[]
  lines: SourceLine[]
  /** The first page, or the picture itself, as WebP; null where it could not be drawn. */
  cover: Uint8Array | null
  /** A photographed page as it was read: level, evenly lit, its rules taken off, as WebP. The boxes of its words stand in this. */
  straightened?: Uint8Array | null
  pageCount: number
  /** Whether any page was read from a picture: its words are then less than certain. */
  wasPhotographed: boolean
  parts: ReadingParts
}

/** Why a file gives no reading. */
export type ReadingRefusal =
  | { kind: 'file-too-large'; bytes: number; mostBytes: number }
  | { kind: 'not-a-pdf'; found: string | null }
  | { kind: 'pdf-locked' }
  | { kind: 'pdf-unreadable' }
  | { kind: 'too-many-pages'; pages: number; mostPages: number }
  | { kind: 'photo-heic' }
  | { kind: 'not-a-photo'; found: string | null }
  | { kind: 'photo-unreadable' }
  | { kind: 'took-too-long'; seconds: number }
  /** The reader broke on this file: a fault, or no memory left. */
  | { kind: 'reader-broke' }
  | { kind: 'stopped' }
