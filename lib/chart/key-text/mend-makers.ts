import { editDistance } from '../likeness'
import type { SourceCell, SourceLine } from '../page-text/page-text'
import type { Vocabulary } from './vocabulary'

/** A maker that was made out of a name some letters off is not sure. */
const madeOut = 0.78

/**
 * Lines with the known makers' names as they are written, where a picture was read with a letter of one wrong or its space lost. What was typed
 * says what it says.
 */
export function withMakersMended(lines: readonly SourceLine[], known: Vocabulary): readonly SourceLine[] {
  if (lines.every(({ cells }) => cells.every(({ certainty }) => certainty === 1))) return lines
  const makers = [...known.makers.values()].map(({ name }) => ({ name, bare: bare(name), words: name.split(/\s+/).length }))
  return lines.map((line) => ({ ...line, cells: line.cells.map((cell) => (cell.certainty === 1 ? cell : mended(cell, makers))) }))
}

type Maker = { name: string; bare: string; words: number }

const bare = (text: string): string => text.toLocaleLowerCase('en').replace(/[^\p{L}\p{N}]/gu, '')
const mostSlips = (length: number): number => (length < 6 ? 0 : length < 10 ? 1 : 2)

function mended(cell: SourceCell, makers: readonly Maker[]): SourceCell {
  const words = cell.text.split(' ')
  for (let at = 0; at < words.length; at++) {
    for (const count of [2, 1, 3]) {
      const part = words.slice(at, at + count).join(' ')
      if (at + count > words.length || /^\d/.test(part)) continue
      const read = bare(part)
      const maker = makers.find((one) => isSlipOf(read, one, count))
      if (!maker) continue
      if (part.toLocaleLowerCase('en').includes(maker.name.toLocaleLowerCase('en'))) return cell
      const text = [...words.slice(0, at), maker.name, ...words.slice(at + count)].join(' ')
      return { ...cell, text, certainty: read === maker.bare ? cell.certainty : Math.min(cell.certainty, madeOut) }
    }
  }
  return cell
}

/** As many words as the maker has, or all of them run together. */
const isSlipOf = (read: string, { bare: name, words }: Maker, count: number): boolean =>
  (count === words || count === 1) &&
  read.length >= 4 &&
  editDistance(read, name, mostSlips(name.length)) <= mostSlips(name.length)
