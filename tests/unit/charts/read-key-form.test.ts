import { describe, expect, it } from 'vitest'
import { keyTexts, lineField, orderField, threadField } from '../../../app/_charts/key-texts'
import { readKeyForm } from '../../../app/_charts/read-key-form'

type Typed = {
  symbol?: string
  full?: string
  half?: string
  note?: string
  threads: Partial<Record<Parameters<typeof threadField>[2], string>>[]
}

/** The form as it is sent when these lines are typed. */
function sent(lines: Typed[]): Record<string, string> {
  const values: Record<string, string> = { [orderField]: lines.map((_, index) => String(index)).join(',') }
  lines.forEach(({ threads, ...rest }, index) => {
    const key = String(index)
    for (const [part, text] of Object.entries(rest)) values[lineField(key, part as 'symbol')] = text
    values[lineField(key, 'threads')] = threads.map((_, at) => String(at)).join(',')
    threads.forEach((thread, at) => {
      for (const [part, text] of Object.entries(thread)) values[threadField(key, String(at), part as 'code')] = text
    })
  })
  return values
}
const read = (lines: Typed[]) => {
  const result = readKeyForm(sent(lines), 'm')
  return result.ok ? result.value.keyLines : result.error
}
const first = { maker: 'Larkholm', line: 'Stranded Cotton', code: '0017' }

describe('a key as it is typed', () => {
  it('keeps codes as text and figures as counts', () => {
    expect(
      read([{ symbol: '●', full: '2,940', half: '12', threads: [{ ...first, name: ' Deep  Mussel ', strands: '2' }] }]),
    ).toEqual([
      {
        symbol: '●',
        note: null,
        tally: { full: 2_940, half: 12 },
        threads: [
          {
            makerName: 'Larkholm',
            lineName: 'Stranded Cotton',
            code: '0017',
            name: 'Deep Mussel',
            strands: 2,
            statedHundredths: null,
            putUpTenths: null,
          },
        ],
      },
    ])
  })

  it('carries maker, line and strands down, but no line to another maker', () => {
    const lines = read([
      { threads: [{ ...first, strands: '3' }] },
      { threads: [{ code: '17' }] },
      { threads: [{ maker: 'Quillwater', code: '12' }] },
      { threads: [{ line: 'Braid', code: '4' }] },
    ])
    expect(
      Array.isArray(lines) && lines.map(({ threads: [thread] }) => [thread?.makerName, thread?.lineName, thread?.strands]),
    ).toEqual([
      ['Larkholm', 'Stranded Cotton', 3],
      ['Larkholm', 'Stranded Cotton', 3],
      ['Quillwater', null, 3],
      ['Quillwater', 'Braid', 3],
    ])
  })

  it('takes two strands of a single thread and one of each in a blend', () => {
    const lines = read([
      { threads: [first] },
      { threads: [{ code: '0017' }, { code: '0031' }, { maker: 'Larkholm' }] },
      { threads: [{ code: '9' }] },
    ])
    expect(Array.isArray(lines) && lines.map(({ threads }) => threads.map(({ strands }) => strands))).toEqual([[2], [1, 1], [2]])
  })

  it('passes over lines in which only what is carried down is filled in, and numbers the others as they stand', () => {
    expect(
      read([
        { threads: [{ maker: 'Larkholm', line: 'Stranded Cotton', strands: '2' }] },
        { threads: [{ ...first, code: '', name: 'Moss' }] },
      ]),
    ).toEqual({
      'l1t0-code': ['Line 2: give the code as printed, zeros and all.'],
    })
  })

  it('reads stated skeins rounded up to a hundredth, with the length of one', () => {
    const lines = read([{ threads: [{ ...first, skeins: '1/3', putUp: '8 yd' }] }, { threads: [{ code: '9', skeins: '2' }] }])
    expect(Array.isArray(lines) && lines.map(({ threads: [thread] }) => [thread?.statedHundredths, thread?.putUpTenths])).toEqual(
      [
        [34, 73_152],
        [200, null],
      ],
    )
  })

  it('says by line and field what is wrong, all of it at once', () => {
    expect(
      read([
        { full: 'many', threads: [{ code: '0017', strands: '0', skeins: '-1' }] },
        { symbol: 'x', threads: [{ maker: 'Larkholm', putUp: '8 m' }] },
      ]),
    ).toEqual({
      'l0-full': ['Line 1: Full crosses: give a whole number, such as 120, or nothing.'],
      'l0t0-maker': ['Line 1: say whose thread it is; there is no line above to take the maker from.'],
      'l0t0-strands': ['Line 1: strands are a whole number from 1 to 24.'],
      'l0t0-skeins': ['Line 1: give the skeins as 2, 0.6 or 1/2.'],
      'l1t0-code': ['Line 2: give the code as printed, zeros and all.'],
      'l1t0-skeins': ['Line 2: a skein length is given, but not how many skeins.'],
    })
    expect(read([{ threads: [{}] }])).toEqual({ name: ['Write at least one line, with a code.'] })
  })

  it('shows a list in its fields so that it is read again unchanged', () => {
    const keyLines = [
      {
        symbol: '◆',
        note: 'outline',
        tally: { full: 12, knotTwoWrap: 3 },
        threads: [
          {
            threadId: 'a',
            makerName: 'Larkholm',
            lineName: 'Stranded Cotton',
            code: '0311',
            name: 'Deep Mussel',
            strands: 1,
            stated: { hundredths: 60, putUpTenths: 73_152 },
          },
          {
            threadId: 'b',
            makerName: 'Quillwater',
            lineName: 'Filament',
            code: '12',
            name: null,
            strands: 1,
            stated: { hundredths: 10, putUpTenths: 500_001 },
          },
        ],
      },
    ]
    const { layout, texts } = keyTexts(keyLines, 'm')
    const values: Record<string, string> = { ...texts, [orderField]: layout.map(({ key }) => key).join(',') }
    for (const { key, threadKeys } of layout) values[lineField(key, 'threads')] = threadKeys.join(',')
    const again = readKeyForm(values, 'm')
    expect(again.ok && again.value.keyLines).toEqual(
      keyLines.map(({ threads, ...line }) => ({
        ...line,
        threads: threads.map(({ threadId, stated, ...thread }) => ({
          ...thread,
          statedHundredths: stated.hundredths,
          putUpTenths: stated.putUpTenths,
        })),
      })),
    )
  })
})
