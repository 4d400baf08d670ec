import { describe, expect, it } from 'vitest'
import { choiceSentence, pieceDescription, pieceName, pieceTitle } from '#words/cloth'
import { hexesOf } from '#words/colour'
import { calendarDay, dayOf } from '#words/date'
import { pathWords } from '#words/place'
import { lineTitle, threadName, threadTitle } from '#words/thread'

const perInch = (threads: number) => ({ threads, perUm: 25_400 })

describe('what things are called', () => {
  it('names a thread with its line or without, and leaves out what is not on record', () => {
    const line = { makerName: 'Larkholm', name: 'stranded' }
    expect(threadTitle({ line, code: '0017', name: 'Straw' })).toBe('Larkholm stranded 0017 Straw')
    expect(threadTitle({ line: { ...line, name: '' }, code: '0017', name: null })).toBe('Larkholm 0017')
    expect(lineTitle(line)).toBe('Larkholm stranded')
    expect(threadName({ makerName: 'Larkholm', code: '0311', name: 'Barn Red' })).toBe('Larkholm 0311 Barn Red')
  })

  it('names a piece of cloth by its label, or else by what it is', () => {
    const piece = { label: 'C3-2', name: 'Linen', colourName: 'Flax', ends: perInch(28), picks: perInch(28) }
    expect(pieceName(piece)).toBe('C3-2')
    expect(pieceName({ ...piece, label: null })).toBe('Linen, Flax')
    expect(pieceTitle(piece)).toBe('C3-2 · Linen, Flax')
    expect(pieceTitle({ ...piece, label: null, colourName: null })).toBe('Linen')
    expect(pieceDescription({ ...piece, colourName: null })).toMatch(/^Linen, 28/)
  })

  it('says what to buy when no piece fits', () => {
    const toBuy = { widthUm: 18 * 25_400, heightUm: 20 * 25_400 }
    const choice = { best: null, ranked: [], toBuy } as unknown as Parameters<typeof choiceSentence>[0]
    expect(choiceSentence(choice, 'in')).toMatch(/^buy 18/)
    expect(choiceSentence({ ...choice, toBuy: null }, 'in')).toBe('none that fits')
  })

  it('leads to a place from the room down, by the names people use', () => {
    const place = (id: string, label: string, parentId: string | null, name: string | null = null) => ({
      ...{ id, label, name, kind: 'drawer' as const, parentId, walkOrder: null, capacity: null },
      path: parentId ? `/${parentId}/${id}/` : `/${id}/`,
    })
    const room = place('r', 'R', null, 'Kitting room')
    const drawer = place('d', 'T2.1', 'r')
    const places = new Map([room, drawer].map((each) => [each.id, each]))
    expect(pathWords(drawer, places)).toBe('Kitting room › T2.1')
  })

  it('takes a moment’s day from the calendar of the machine', () => {
    const lateEvening = new Date(2026, 0, 5, 23, 59)
    expect(calendarDay(lateEvening)).toBe('2026-01-05')
    expect(dayOf(lateEvening)).toBe(dayOf(new Date(2026, 0, 5, 0, 1)))
    expect(dayOf(lateEvening)).toContain('2026')
  })

  it('draws a recorded colour, and none where none is on record', () => {
    expect(hexesOf({ L: 100, a: 0, b: 0 })).toEqual(['#ffffff'])
    expect(hexesOf(null)).toEqual([])
  })
})
