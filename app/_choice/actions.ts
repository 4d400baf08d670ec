'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { findChoiceJob, startChoice, stopChoice } from '#lib/db/planning/together/choice-jobs'
import { planChosen } from '#lib/db/planning/together/plan-chosen'
import { setStars } from '#lib/db/project/set-stars'
import type { ChoicePin } from '#lib/planning/together/choice-world'
import { mostValueOfDesign } from '#lib/planning/together/wish-value'
import { getViewer } from '#viewer/viewer'
import { choiceRefusedWords } from '#words/choice'
import { calendarDay } from '#words/date'
import { askAgainSchema, buyingSchema, jobSchema, pinSchema, starsSchema, startChoiceSchema, valueSchema } from './schema'
import { addressOf } from './screens'

/** Begin to choose among the designs and pieces of the form, and go to where it shows how far it is. */
export async function startChoiceAction(_previous: FormState, form: FormData): Promise<FormState> {
  const input = startChoiceSchema.parse({
    ...{ screen: form.get('screen'), from: form.get('from'), design: form.getAll('design'), piece: form.getAll('piece') },
    ...{ cloth: form.get('cloth'), hasLadder: form.get('hasLadder'), seconds: form.get('seconds') },
  })
  const values = textFields(form)
  const fieldErrors: Record<string, string[]> = {}
  const buying = buyingSchema.safeParse(values)
  if (!buying.success) fieldErrors.most = buying.error.issues.map(({ message }) => message)
  const worth = new Map<string, number>()
  const pins = new Map<string, ChoicePin>()
  for (const designId of input.design) {
    pins.set(designId, pinSchema.parse(form.get(`pin.${designId}`)))
    const typed = values[`value.${designId}`]?.trim() ?? ''
    if (typed === '') continue
    const value = valueSchema.safeParse(typed)
    if (value.success) worth.set(designId, value.data)
    else fieldErrors[`value.${designId}`] = [say('A whole number from 1 to {mostValueOfDesign}.', { mostValueOfDesign })]
  }
  if (!buying.success || Object.keys(fieldErrors).length > 0) return { status: 'invalid', fieldErrors, values }
  if (input.design.every((designId) => pins.get(designId) === 'out'))
    return { status: 'refused', message: say('Leave at least one design to choose from.'), values }
  if (input.cloth === 'pieces' && input.piece.length === 0)
    return { status: 'refused', message: say('Tick at least one piece of cloth to cut from.'), values }
  const { ownerIds } = await getViewer()
  const started = await startChoice(
    {
      ...{ ownerIds, source: input.from, designIds: input.design, values: worth, pins, buying: buying.data },
      ...{ isClothAside: input.cloth === 'aside', pieceIds: input.cloth === 'pieces' ? input.piece : null },
      today: calendarDay(new Date()),
    },
    { timeLimitSeconds: input.seconds, hasLadder: input.hasLadder },
  )
  if (!started.ok) return { status: 'refused', message: choiceRefusedWords(started.error), values }
  redirect(`${addressOf[input.screen]}/jobs/${started.value.jobId}`)
}

/** The same once more, with one of the designs that were left out pinned. */
export async function askAgainAction(_previous: FormState, form: FormData): Promise<FormState> {
  const { jobId, designId, screen } = askAgainSchema.parse(textFields(form))
  const job = await findChoiceJob(jobId)
  if (job?.state !== 'done') return { status: 'refused', message: say('Nothing is known of that choice any more. Ask anew.') }
  const { asked, run } = job.answer
  const started = await startChoice({ ...asked, pins: new Map([...asked.pins, [designId, 'in']]) }, run)
  if (!started.ok) return { status: 'refused', message: choiceRefusedWords(started.error) }
  redirect(`${addressOf[screen]}/jobs/${started.value.jobId}`)
}

/** Plan every wish among the chosen, and promise what is free to each. */
export async function planChosenAction(_previous: FormState, form: FormData): Promise<FormState> {
  const { jobId } = jobSchema.parse(textFields(form))
  const job = await findChoiceJob(jobId)
  if (job?.state !== 'done' || job.answer.kind !== 'chosen')
    return { status: 'refused', message: say('Nothing is known of that choice any more. Ask anew.') }
  const { choice, question } = job.answer
  const wishes = choice.placed.flatMap(({ designId, listId }) => {
    const [wish] = question.candidates.find((one) => one.designId === designId)?.wishes ?? []
    return wish ? [{ projectId: wish.projectId, threadListId: listId }] : []
  })
  const result = await planChosen(wishes)
  if (!result.ok)
    return { status: 'refused', message: say('One of them was changed or taken away meanwhile. Nothing was planned: ask anew.') }
  revalidatePath('/', 'layout')
  const { planned, short } = result.value
  const still =
    short === 0
      ? say('Everything they need is promised.')
      : say('Still short of {short, plural, one {# thread} other {# threads}}: buy them first.', { short })
  return {
    status: 'done',
    message:
      planned === 0
        ? say('They are all planned already.')
        : say('{planned, plural, one {# project} other {# projects}} planned. {still}', { planned, still }),
  }
}

/** End a search; the best found so far is its answer. */
export async function stopChoiceAction(_previous: FormState, form: FormData): Promise<FormState> {
  const input = jobSchema.safeParse({ jobId: form.get('jobId') })
  if (input.success) await stopChoice(input.data.jobId)
  return { status: 'done' }
}

/** How much some projects are wished for. @returns a sentence when it is refused, else null */
export async function setStarsAction(asked: { projectIds: string[]; stars: number | null }): Promise<string | null> {
  const input = starsSchema.safeParse(asked)
  const result = input.success ? await setStars(input.data) : null
  if (!result?.ok) return say('It is no longer on record. Draw the page anew.')
  revalidatePath('/', 'layout')
  return null
}
