import { z } from 'zod'
import { idText, isTicked, versionText } from '#forms/fields'
import { say } from '#language/say'
import type { KeyReading } from '#lib/chart/key-text/reading'
import { lineKey, unknownLines, unknownThreads } from '#lib/chart/unknown-threads'
import { findDesignsCalled } from '#lib/db/chart/find-designs-called'
import { findStagedReading } from '#lib/db/reading/reading-store'
import type { ListToSave, NewLineFacts, ReadingTarget, SaveReading } from '#lib/db/reading/save-reading'
import { listLines } from '#lib/db/thread/list-lines'
import { parseWholeNumber } from '#lib/quantity/number'
import { parseThreadLength } from '#lib/quantity/thread-length'
import { ok, type Result, refused } from '#lib/result'
import type { Viewer } from '#viewer/viewer'
import { addChartSchema, chartInputOf } from '../_charts/schema'
import { saveFields as fields } from './save-fields'
import { describeSaveRefusal } from './words'

const headSchema = z.object({
  id: idText,
  version: versionText,
  target: z.enum(['chart', 'designs'], { error: () => say('Say what it is saved as.') }),
  leavesOut: isTicked,
  keepsFile: isTicked,
  keepsCover: isTicked,
  isAnotherFile: isTicked,
  addAll: isTicked,
})

const mostPutUpTenths = 100_000_000

type Values = Record<string, string | undefined>
type FieldErrors = Record<string, string[]>
type Wrong = { fieldErrors: FieldErrors } | z.ZodError

/** What the form under a review was sent with: where the lists go, what is added, and what else is kept. */
export async function readSaveForm(
  values: Values,
  { ownerIds, settings }: Viewer,
): Promise<Result<Omit<SaveReading, 'ownerIds'>, Wrong>> {
  const head = headSchema.safeParse(values)
  if (!head.success) return refused(head.error)
  const { id, version, target, addAll, ...ticks } = head.data
  const staged = await findStagedReading(id, ownerIds)
  if (!staged) return refused({ fieldErrors: { target: [describeSaveRefusal({ kind: 'no-such-reading' })] } })
  const reading: KeyReading = staged.review?.reading ?? { designs: [], unread: [] }

  const threads = unknownThreads(reading)
  const meant = threads.filter(({ key }, index) => addAll || values[fields.addThread(index)] === key)
  const errors: FieldErrors = {}
  const wanted = new Set(meant.map(lineKey))
  const newLines: NewLineFacts[] = unknownLines(threads, await listLines()).flatMap((line, index) => {
    if (!wanted.has(line.key)) return []
    const [strandsField, putUpField] = [fields.strands(index), fields.putUp(index)]
    const strands = parseWholeNumber((values[strandsField] ?? '6').trim())
    const putUpTenths = parseThreadLength((values[putUpField] ?? '8 m').trim(), settings.threadUnit)
    if (strands === null || strands < 1 || strands > 24) errors[strandsField] = [say('Strands are a whole number from 1 to 24.')]
    if (putUpTenths === null || putUpTenths === 0 || putUpTenths > mostPutUpTenths)
      errors[putUpField] = [say('Give the length of one skein, such as 8 m or 5 yd.')]
    return [{ makerName: line.makerName, lineName: line.lineName, strands: strands ?? 6, putUpTenths: putUpTenths || 1 }]
  })

  const to = target === 'chart' ? chartTarget(values, reading) : await designsTarget(values, reading)
  if (!to.ok) return refused('fieldErrors' in to.error ? { fieldErrors: { ...errors, ...to.error.fieldErrors } } : to.error)
  if (Object.keys(errors).length > 0) return refused({ fieldErrors: errors })
  return ok({ id, version, ...ticks, target: to.value, mayAdd: new Set(meant.map(({ key }) => key)), newLines, who: null })
}

function chartTarget(values: Values, reading: KeyReading): Result<ReadingTarget, Wrong> {
  const chart = addChartSchema.safeParse(values)
  if (!chart.success) return refused(chart.error)
  const { placeLabel, isAnother, title } = chart.data
  const isOnly = reading.designs.length <= 1
  const errors: FieldErrors = {}
  const designs = (reading.designs.length === 0 ? [null] : [...reading.designs.keys()]).flatMap((index) => {
    const at = index ?? 0
    if (!isOnly && values[fields.takesDesign(at)] === undefined) return []
    const typed = (values[fields.designTitle(at)] ?? '').trim()
    if (typed.length > 200) errors[fields.designTitle(at)] = [say('Keep it to 200 characters.')]
    if (typed === '' && !isOnly) errors[fields.designTitle(at)] = [say('Give the title of the design.')]
    return [{ index, title: typed || title, lists: index === null ? [] : listsOf(values, reading, index, errors) }]
  })
  if (Object.keys(errors).length > 0) return refused({ fieldErrors: errors })
  return ok({ kind: 'chart', chart: { ...chartInputOf(chart.data), placeLabel, isAnother }, designs })
}

async function designsTarget(values: Values, reading: KeyReading): Promise<Result<ReadingTarget, Wrong>> {
  const errors: FieldErrors = {}
  const designs: Extract<ReadingTarget, { kind: 'designs' }>['designs'][number][] = []
  for (const index of reading.designs.keys()) {
    const chosen = (values[fields.intoDesign(index)] ?? '').trim()
    const called = (values[fields.called(index)] ?? '').trim()
    if (chosen === '' && called === '') continue
    const designId = chosen || (await findCalledDesign(called, errors, fields.called(index)))
    if (designId === null) continue
    if (designs.some((other) => other.designId === designId))
      errors[fields.called(index)] = [say('Two of the designs read cannot go into one. Save them one after the other.')]
    const fillsFacts = values[fields.fills(index)] !== undefined
    designs.push({ index, designId, fillsFacts, lists: listsOf(values, reading, index, errors) })
  }
  if (designs.length === 0 && Object.keys(errors).length === 0)
    errors[fields.called(0)] = [say('Choose the design its list is for, or type its title.')]
  return Object.keys(errors).length > 0 ? refused({ fieldErrors: errors }) : ok({ kind: 'designs', designs })
}

async function findCalledDesign(title: string, errors: FieldErrors, field: string): Promise<string | null> {
  const found = await findDesignsCalled(title)
  const [one] = found
  if (one && found.length === 1) return one.id
  errors[field] = [
    found.length === 0
      ? say('No design is called {title}. Type its title in full, as it stands under Charts.', { title })
      : say('Several designs are called {title}: in {found}. Open the one that is meant, and press “Read a key” there.', {
          title,
          found: found.map(({ chartTitle }) => chartTitle).join(', '),
        }),
  ]
  return null
}

function listsOf(values: Values, reading: KeyReading, design: number, errors: FieldErrors): ListToSave[] {
  return (reading.designs[design]?.lists ?? []).flatMap((list, index) => {
    if (list.lines.length === 0 || values[fields.takesList(design, index)] === undefined) return []
    const field = fields.listName(design, index)
    const name = (values[field] ?? '').trim()
    if (name === '') errors[field] = [say('Give the list a name, such as Cotton or Printed list.')]
    if (name.length > 120) errors[field] = [say('Keep it to 120 characters.')]
    return [{ index, name }]
  })
}
