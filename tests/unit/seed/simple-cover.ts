export type Row = Record<string, string>

const lengthM = (text: string): number => {
  const [, amount = '', unit = ''] = /^([\d.]+) (m|yd)$/.exec(text) ?? []
  if (!unit) throw new RangeError(`lengthM: "${text}" is not a length`)
  return Number(amount) * (unit === 'yd' ? 0.9144 : 1)
}
const fractions: Record<string, number> = { '1/4': 0.25, '1/2': 0.5, '3/4': 0.75, 'about 1/2': 0.5 }
const partM = (part: string, putUpM: number): number => {
  if (part === '' || part === 'some') return 0
  const fraction = fractions[part]
  return fraction === undefined ? lengthM(part.replace(' measured', '')) : fraction * putUpM
}
const number = (text: string | undefined) => Number(text || 0)

const keyOf = (maker: string, line: string, code: string) => `${maker}|${line}|${code}`

/** Each design's cover as a person with a pocket calculator would find it: how many put-ups are missing of its best list. */
export function coverByHand(charts: Row[], lists: Row[], threads: Row[], owners: string[]): Map<string, number> {
  const known = new Map(threads.map((row) => [keyOf(row.Maker ?? '', row.Line ?? '', row.Code ?? ''), row]))
  const freeByLot = new Map<string, Map<string, number>>()
  for (const row of threads) {
    if (row['Now at'] || !owners.includes(row.Owner ?? '')) continue
    const key = keyOf(row.Maker ?? '', row.Line ?? '', row.Code ?? '')
    const putUpM = lengthM(row['Put-up'] ?? '')
    const strandM = (number(row.Skeins) * putUpM + partM(row.Part ?? '', putUpM)) * number(row.Strands)
    const lots = freeByLot.get(key) ?? new Map<string, number>()
    lots.set(row.Lot ?? '', (lots.get(row.Lot ?? '') ?? 0) + strandM)
    freeByLot.set(key, lots)
  }
  const free = (key: string) => {
    const lots = [...(freeByLot.get(key)?.values() ?? [0])]
    return known.get(key)?.['Lots matter'] === 'yes' ? Math.max(...lots) : lots.reduce((sum, one) => sum + one, 0)
  }

  const designs = new Map(charts.map((row) => [`${row.Chart}|${row.Design}`, row]))
  const needs = new Map<string, Map<string, Map<string, number>>>()
  for (const row of lists) {
    const title = `${row.Chart}|${row.Design}`
    const design = designs.get(title)
    if (!design) throw new RangeError(`coverByHand: no design ${title}`)
    const count = /^([\d.]+)(\/10cm)?( over ([12]))?$/.exec(design.Count ?? '')
    if (!count) throw new RangeError(`coverByHand: "${design.Count}" is not a count`)
    const pitchM = Number(count[4] ?? 1) / (Number(count[1]) / (count[2] ? 0.1 : 0.0254))
    const each = (cells: string, at: number) => cells.split('+')[at] ?? cells.split('+')[0] ?? ''
    const ofDesign = needs.get(title) ?? new Map<string, Map<string, number>>()
    const ofList = ofDesign.get(row.List ?? '') ?? new Map<string, number>()
    ;(row.Code ?? '').split('+').forEach((code, at) => {
      const key = keyOf(each(row.Maker ?? '', at), each(row.Line ?? '', at), code)
      const thread = known.get(key)
      if (!thread) throw new RangeError(`coverByHand: no thread ${key}`)
      const strands = Number(each(row.Strands ?? '', at))
      const pitches =
        4.8284 * number(row.Full) +
        2.4142 * number(row.Half) +
        1.5 * number(row.Quarter) +
        3.9 * number(row['Three-quarter']) +
        3 * number(row.Backstitch) +
        2.41 * number(row.Beads)
      const flat = 0.012 * number(row['Knots (one wrap)']) + 0.003 * number(row.Beads)
      const skeins = each(row.Skeins ?? '', at)
      const stated = skeins === '1/2' ? 0.5 : number(skeins)
      const putUpM = lengthM(row['Put-up'] || (thread['Put-up'] ?? ''))
      const hasAmounts = pitches > 0 || skeins !== ''
      const needM = hasAmounts
        ? strands * (1.5 * pitches * pitchM + flat) + stated * putUpM * number(thread.Strands)
        : putUpM * number(thread.Strands)
      ofList.set(key, (ofList.get(key) ?? 0) + needM)
    })
    ofDesign.set(row.List ?? '', ofList)
    needs.set(title, ofDesign)
  }

  const missing = new Map<string, number>()
  for (const [title, ofDesign] of needs) {
    const best = [...ofDesign.values()].map((ofList) =>
      [...ofList].reduce((sum, [key, needM]) => {
        const short = needM - free(key)
        if (short <= 1e-6) return sum
        const thread = known.get(key) as Row
        const putUpM = lengthM(thread['Put-up'] ?? '') * number(thread.Strands)
        const isBoughtAfresh = thread['Lots matter'] === 'yes'
        return sum + Math.ceil((isBoughtAfresh ? needM : short) / putUpM)
      }, 0),
    )
    missing.set(title, Math.min(...best))
  }
  return missing
}
