'use server'

import { revalidatePath } from 'next/cache'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { readMasterList } from '#lib/db/kit/master-list'
import { cutAgain, cutKits } from '#lib/db/kit-bag/cut-kits'
import { markBags } from '#lib/db/kit-bag/mark-bags'
import { readKitBags } from '#lib/db/kit-bag/queries'
import { stepBags } from '#lib/db/kit-bag/step-bags'
import { parseBags } from '#lib/project/kit/record'
import { rememberName } from '#viewer/remembered-name'
import { listed } from '#words/amounts'
import { bagsWords, describeKitRefusal, type KitRefusal, lineName, markWords, stepWords } from '#words/kit'
import { checkSchema, cutAgainSchema, cutSchema, markSchema, readMarkField, sawSchema, stepSchema } from './schema'

async function refusal(error: KitRefusal, projectId: string, values: Record<string, string>): Promise<FormState> {
  const master = await readMasterList(projectId)
  return { status: 'refused', message: describeKitRefusal(error, master?.lines ?? []), values }
}

export async function cutAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form, 'by')
  const input = cutSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await cutKits(input.data)
  if (!result.ok) return refusal(result.error, input.data.projectId, values)
  await rememberName(input.data.by)
  revalidatePath('/', 'layout')
  const { cuts, threads, short } = result.value
  const left =
    short.length === 0 ? '' : say(' Still short of {short, plural, one {# thread} other {# threads}}.', { short: short.length })
  return {
    status: 'done',
    message: say(
      '{cuts, plural, one {# cut} other {# cuts}} of {threads, plural, one {# thread} other {# threads}} on record.{left}',
      { cuts, threads, left },
    ),
  }
}

export async function cutAgainAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form, 'by')
  const input = cutAgainSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await cutAgain({ ...input.data, by: input.data.by || null })
  if (!result.ok) return refusal(result.error, input.data.projectId, values)
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Cut anew: the record names the new piece. Lay it in the bag, then mark it there.') }
}

export async function stepAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form, 'by')
  const input = stepSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { projectId, step, by } = input.data
  if ((step === 'pack' || step === 'seal') && by === '')
    return { status: 'invalid', fieldErrors: { by: [say('Say who does it, by name.')] }, values }
  const read = await readKitBags(projectId)
  const bags = parseBags(input.data.bags, read?.bags.map(({ number }) => number) ?? [])
  if (bags === null)
    return { status: 'invalid', fieldErrors: { bags: [say('Give bags there are, by number: 1–8, 13.')] }, values }
  const result = await stepBags({ ...input.data, bags, by: by || null })
  if (!result.ok) return refusal(result.error, projectId, values)
  if (by !== '') await rememberName(by)
  revalidatePath('/', 'layout')
  const { charts } = result.value
  const chartWords =
    charts > 0
      ? say(' {charts, plural, one {# chart} other {# charts}} went along.', { charts })
      : charts < 0
        ? say(' {charts, plural, one {# chart} other {# charts}} back on record.', { charts: -charts })
        : ''
  return { status: 'done', message: `${capital(bagsWords(bags))} ${stepWords[step]}.${chartWords}` }
}

export async function checkAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form, 'by')
  const input = checkSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { projectId, by, isAlone, all } = input.data
  const marks = Object.keys(values).flatMap((name) => {
    const field = name.startsWith('saw ') ? readMarkField(`mark ${name.slice(4)}`) : null
    if (!field) return []
    const saw = sawSchema.safeParse(values[name])
    const status = markSchema.safeParse(all === undefined ? values[`mark ${name.slice(4)}`] : 'there')
    if (!saw.success || !status.success || saw.data === status.data) return []
    return [{ ...field, status: status.data, saw: saw.data }]
  })
  if (marks.length === 0) return { status: 'refused', message: say('Nothing new is marked.'), values }
  const result = await markBags({ projectId, by, isAlone, marks })
  if (!result.ok) return refusal(result.error, projectId, values)
  await rememberName(by)
  revalidatePath('/', 'layout')
  const { marked, checked, conflicts } = result.value
  const found = checked.length > 0 ? say('{bags} checked: all is there.', { bags: capital(bagsWords(checked)) }) : ''
  const saved = [marked > 0 ? say('Saved: {marked, plural, one {# line} other {# lines}}.', { marked }) : '', found]
    .filter(Boolean)
    .join(' ')
  if (conflicts.length === 0) return { status: 'done', message: saved }
  const lines = (await readMasterList(projectId))?.lines ?? []
  const others = conflicts.map(({ bag, key, status, who }) => {
    const line = lines.find((one) => one.key === key)
    return say('bag {bag}, {rest} ({who} marked it {mark})', {
      bag,
      rest: line ? lineName(line) : say('a line'),
      who: who ?? say('somebody'),
      mark: markWords[status],
    })
  })
  return {
    status: 'refused',
    message: say('{saved} Marked otherwise meanwhile, so theirs stands: {others}. Look together, then load the page again.', {
      saved,
      others: listed(others),
    }).trim(),
    values,
  }
}

const capital = (text: string) => text.replace(/^./u, (letter) => letter.toUpperCase())
