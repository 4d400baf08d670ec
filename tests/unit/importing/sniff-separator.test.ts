import { describe, expect, it } from 'vitest'
import { sniffSeparator } from '#lib/importing/sniff-separator'

const found = (text: string) => sniffSeparator(text).separator

describe('sniffSeparator', () => {
  it('is not misled by decimal commas', () => {
    expect(found('a;b\n1,5;2')).toBe(';')
    expect(found('Maker;Putup;Skeins\nLarkholm;8,5;1,5\nOddny Loft;4,6;2,5\n')).toBe(';')
  })

  it('is not misled by semicolons that part values in a cell', () => {
    expect(
      found('Chart,Designer,Season\nNine Wrens,Tilda Quennell; Wilf Sarratt,Winter; Frost\nWick Lane,Saskia Thrupp,Autumn\n'),
    ).toBe(',')
  })

  it('knows tabs and strokes', () => {
    expect(found('Maker\tCode\nLarkholm, of old\t0017\n')).toBe('\t')
    expect(found('Maker|Code|Name\nLarkholm|0017|Rust, dark\n')).toBe('|')
  })

  it('counts nothing inside quotes', () => {
    expect(found('Chart;Note\n"Rook; Hill, in, Snow";"a, b, c"\n"Wick, Lane";"d"\n')).toBe(';')
  })

  it('looks past title lines and blank lines', () => {
    expect(found('My threads, all of them\n\nMaker;Code;Skeins\nLarkholm;0017;1,5\nLarkholm;0018;2,0\n')).toBe(';')
  })

  it('takes the word of a first line that declares it', () => {
    expect(sniffSeparator('sep=|\r\na,b|c\r\n')).toMatchObject({ separator: '|', isDeclared: true })
  })

  it('says one column when nothing parts the rows', () => {
    expect(sniffSeparator('Label\nT1\nT2\n')).toEqual({ separator: ',', columns: 1, share: 1, isDeclared: false })
  })
})
