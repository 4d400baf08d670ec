import sharp from 'sharp'
import { blobsOf, capHeight, letterLike } from './picture/blobs'
import { clearGround } from './picture/clear-ground'
import { evenLight } from './picture/even-light'
import { findBend } from './picture/find-bend'
import { findSheet, isOnSheet, ontoSheet, type Sheet, sheetSize } from './picture/find-sheet'
import { findSkew } from './picture/find-skew'
import { takeFrames } from './picture/frames'
import { type Grey, otsuShade } from './picture/grey'
import { type Rules, takeRules } from './picture/rules'
import { turnedBack, warped } from './picture/warp'

/** More than any camera takes; a small file can claim far more. */
export const mostPixels = 120_000_000
/** Larger than this a picture is drawn smaller first: it holds no more of a printed key. */
const longestSidePx = 3_600
/** How high capitals are to be for the reader of letters; it was trained on lines of 36 pixels, ascenders and descenders included. */
const goodCapPx = 30
const mostDrawnPixels = 16_000_000

/** A picture of text made ready: level, evenly lit, of a good size, its rules taken off. */
export type Straight = { grey: Grey; capPx: number; rules: Rules; inkShade: number; blobCount: number }

/** @returns null where the file holds no picture that can be read */
export async function straighten(bytes: Uint8Array): Promise<Straight | null> {
  const grey = await decoded(bytes)
  if (!grey) return null
  const even = evenLight(grey)
  const found = findSheet(grey)
  const sheet = found && holdsPrint(found, even) ? found : null
  const flat = sheet ? flattened(even, sheet) : even
  const seen = blobsOf(flat, Math.min(otsuShade(flat), 200))
  if (!sheet) clearGround(flat, letterLike(seen, flat))
  const blobs = sheet ? seen : blobsOf(flat, Math.min(otsuShade(flat), 200))
  const letters = letterLike(blobs, flat)
  const cap = capHeight(letters) ?? goodCapPx
  const sized = letters.filter(({ top, bottom }) => bottom - top > cap * 0.5 && bottom - top < cap * 2)
  const degrees = findSkew(sized, cap)
  const wanted = Math.min(4, Math.max(0.4, goodCapPx / cap), Math.sqrt(mostDrawnPixels / (flat.width * flat.height)))
  const scale = Math.abs(wanted - 1) < 0.15 ? 1 : wanted
  const bend = findBend(sized, flat, { degrees, capPx: cap })
  const level = turnedBack(flat, degrees, scale, bend)
  const capPx = cap * scale
  const inkShade = Math.min(otsuShade(level), 200)
  const rules = takeRules(level, capPx)
  takeFrames(level, capPx, inkShade)
  // Rows on a tint, or a shadow's edge: by cells less high than a row.
  const plain = isTinted(level, inkShade) ? evenLight(level, { cellPx: Math.max(4, Math.round(capPx / 4)), reach: 3 }) : level
  return { grey: plain, capPx, rules, inkShade, blobCount: blobs.length }
}

/** Of a picture, so much is neither ink nor paper where a part of it is tinted. */
const tintedShare = 0.04

function isTinted({ data }: Grey, inkShade: number): boolean {
  let between = 0
  for (const shade of data) if (shade > inkShade + 10 && shade < 236) between++
  return between > data.length * tintedShare
}

/** Of what may be letters, this share at most lies outside a sheet; where more does, its edge is a shadow's or a fold's. */
const mostOutside = 0.05

function holdsPrint(sheet: Sheet, even: Grey): boolean {
  const letters = letterLike(blobsOf(even, Math.min(otsuShade(even), 200)), even)
  // Of a ground with a grain some pieces look like letters, but are small or large ones.
  const cap = capHeight(letters) ?? 0
  const sized = letters.filter(({ top, bottom }) => bottom - top > cap * 0.6 && bottom - top < cap * 1.6)
  const outside = sized.filter((letter) => !isOnSheet(sheet, (letter.left + letter.right) / 2, (letter.top + letter.bottom) / 2))
  return outside.length <= sized.length * mostOutside
}

/** A sheet seen from straight above, without what lies about it; its very edge is left out. */
function flattened(grey: Grey, sheet: Sheet): Grey {
  const size = sheetSize(sheet)
  const place = ontoSheet(sheet)
  const edge = 0.006
  return warped(grey, size, (x, y, into) => {
    const [u, v] = [(x + 0.5) / size.width, (y + 0.5) / size.height]
    if (u < edge || v < edge || u > 1 - edge || v > 1 - edge) into.x = -1
    else place(u, v, into)
  })
}

async function decoded(bytes: Uint8Array): Promise<Grey | null> {
  try {
    const { data, info } = await sharp(bytes, { limitInputPixels: mostPixels })
      .autoOrient()
      .flatten({ background: '#ffffff' })
      .resize({ width: longestSidePx, height: longestSidePx, fit: 'inside', withoutEnlargement: true })
      .greyscale()
      .raw()
      .toBuffer({ resolveWithObject: true })
    if (info.channels !== 1 || info.width < 16 || info.height < 16) return null
    return { width: info.width, height: info.height, data: new Uint8Array(data) }
  } catch {
    return null
  }
}
