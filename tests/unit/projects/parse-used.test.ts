import { describe, expect, it } from 'vitest'
import type { FinishThread } from '#lib/db/project/finish-sheet'
import { parseUsed } from '../../../app/projects/parse-used'

const row: FinishThread = {
  thread: {
    ...{ id: 't1', makerName: 'Larkholm', code: '0017', name: null, lab: null },
    ...{ dyeing: 'solid', strands: 6, putUpWord: 'skein' },
  },
  needStrandTenths: 120_000,
  heldStrandTenths: 480_000,
  pulled: [],
  putUpMilligrams: 4_600,
}
const parse = (values: Record<string, string>) => parseUsed({ 'used.t1': '2 m', ...values }, [row], 'm')

describe('what a finishing form says of a thread', () => {
  it('is nothing while the need stands in the box untouched', () =>
    expect(parse({})).toEqual({ used: [], leftovers: [], missingBatchIds: [], fieldErrors: {} }))

  it('is a length of the thread as sold, of so many strands', () =>
    expect(parse({ 'used.t1': '2.5' }).used).toEqual([{ threadId: 't1', strandTenths: 150_000 }]))

  it('is what was measured of the rest, whatever the box says', () => {
    const said = parse({ 'used.t1': '7 m', 'all.t1': 'on', 'how.t1': 'measured', 'left.t1': '1.5 yd' })
    expect(said).toMatchObject({ used: [], leftovers: [{ threadId: 't1', how: 'measured', strandTenths: 1.5 * 9_144 * 6 }] })
  })

  it.each([
    ['0.8', 800],
    ['0,8 g', 800],
    ['1½ grams', 1_500],
    ['0', 0],
  ])('reads %s on the scales as %d milligrams', (text, milligrams) =>
    expect(parse({ 'how.t1': 'weighed', 'left.t1': text }).leftovers).toEqual([{ threadId: 't1', how: 'weighed', milligrams }]),
  )

  it.each([
    [{ 'how.t1': 'measured', 'left.t1': '' }, 'left.t1', 'Larkholm 0017: give the length that is left, such as 1.5 m, or 0.'],
    [{ 'how.t1': 'weighed', 'left.t1': '2 m' }, 'left.t1', 'Larkholm 0017: give the grams that are left, such as 0.8, or 0.'],
    [{ 'left.t1': '2 m' }, 'how.t1', 'Larkholm 0017: say whether what is left was measured or weighed, or clear the box.'],
  ])('asks again for what does not go together: %o', (values, field, sentence) => {
    const { fieldErrors, leftovers } = parse(values)
    expect(fieldErrors).toEqual({ [field]: [sentence] })
    expect(leftovers).toEqual([])
  })
})
