'use client'

import { type KeyboardEvent, useCallback, useRef, useState } from 'react'
import { say } from '#language/say'
import type { LinePlace } from '#lib/chart/key-text/teach'
import { sumReading } from '#lib/chart/reading-fields'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { Button } from '#ui/button'
import { Notice } from '#ui/notice'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { type CorrectAnswer, correctAction, undoCorrectionAction } from '../../../_reading/actions'
import type { SentCorrection } from '../../../_reading/correction-schema'
import type { ReviewShown, SourceShown } from '../../../_reading/review-shown'
import { ColumnLessons } from './column-lessons'
import { DesignReview } from './design-review'
import { DeskContext } from './desk-context'
import { MakerLessons } from './maker-lessons'
import s from './review.module.css'
import { SaveForm, type SaveFormProps } from './save-form'
import { SourcePane } from './source-pane'
import { UnreadLines } from './unread-lines'

type ReviewDeskProps = {
  first: ReviewShown
  source: SourceShown
  units: { thread: ThreadLengthUnit; cloth: LengthUnit }
  /** Offered while typing. */
  makerNames: readonly string[]
  lineNames: readonly string[]
  save: SaveFormProps
}

type Said = { kind: 'followed'; count: number; last: readonly SentCorrection[] } | { kind: 'refused'; message: string } | null

const placeKey = ({ design, list, line }: LinePlace): string => `${design}.${list}.${line}`

/** What was read beside what it was read from, to be looked over by keyboard; and the form that saves it. */
export function ReviewDesk({ first, source, units, makerNames, lineNames, save: saving }: ReviewDeskProps) {
  const [shown, setShown] = useState(first)
  const [said, setSaid] = useState<Said>(null)
  const [followed, setFollowed] = useState<ReadonlySet<string>>(new Set())
  const [active, setActive] = useState<readonly number[]>([])
  const [isOnlyDoubtful, setIsOnlyDoubtful] = useState(false)
  const latest = useRef(first)
  const queue = useRef<Promise<unknown>>(Promise.resolve())
  const desk = useRef<HTMLDivElement>(null)
  const save = useRef<HTMLDivElement>(null)

  /** One after another: each is told the version the one before has made. */
  const ask = useCallback((work: (version: number) => Promise<CorrectAnswer>): Promise<CorrectAnswer | null> => {
    const mine = queue.current.then(async () => {
      const answer = await work(latest.current.version).catch(() => null)
      if (answer?.shown) {
        latest.current = answer.shown
        setShown(answer.shown)
      }
      if (answer === null)
        setSaid({ kind: 'refused', message: say('The larder does not answer. What you changed is not kept yet: try again.') })
      else if (!answer.ok) setSaid({ kind: 'refused', message: answer.message })
      return answer
    })
    queue.current = mine
    return mine
  }, [])

  const correct = useCallback(
    async (corrections: readonly SentCorrection[]) => {
      if (corrections.length === 0) return
      const answer = await ask((version) => correctAction({ id: latest.current.id, version, corrections }))
      if (!answer?.ok) return
      setFollowed(new Set(answer.changed.map(placeKey)))
      setSaid(answer.changed.length > 0 ? { kind: 'followed', count: answer.changed.length, last: corrections } : null)
    },
    [ask],
  )

  const undo = useCallback(async () => {
    const answer = await ask((version) => undoCorrectionAction({ id: latest.current.id, version }))
    if (!answer?.ok) return
    setFollowed(new Set())
    setSaid(null)
  }, [ask])

  const onlyThis = async (last: readonly SentCorrection[]) => {
    await undo()
    await correct(last.map((one) => (one.kind === 'field' ? { ...one, teachesRest: false } : one)))
  }

  /** The next field to be looked at, from where the person is; past the last of all, the form that saves it. */
  const moveOn = useCallback((from: Element, step: 1 | -1 = 1) => {
    const fields = [...(desk.current?.querySelectorAll<HTMLElement>('[data-field]') ?? [])]
    const at = fields.findIndex((field) => field === from || field.contains(from))
    const inTurn =
      step === 1
        ? [...fields.slice(at + 1), ...fields.slice(0, at)]
        : [...fields.slice(0, at).reverse(), ...fields.slice(at + 1).reverse()]
    const next = inTurn.find((field) => field.dataset.look !== undefined)
    ;(next ?? save.current)?.focus()
  }, [])

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.nativeEvent.isComposing || !(event.target instanceof HTMLElement)) return
    if (event.altKey && (event.key === 'ArrowDown' || event.key === 'ArrowUp')) {
      event.preventDefault()
      moveOn(event.target, event.key === 'ArrowDown' ? 1 : -1)
    } else if (event.altKey && event.code === 'KeyZ') {
      event.preventDefault()
      void undo()
    } else if (!event.altKey && (event.key === 'ArrowDown' || event.key === 'ArrowUp')) {
      const { column } = event.target.dataset
      if (column === undefined || event.target instanceof HTMLSelectElement) return
      const same = [...(desk.current?.querySelectorAll<HTMLElement>(`[data-column="${column}"]`) ?? [])]
      const next = same[same.indexOf(event.target) + (event.key === 'ArrowDown' ? 1 : -1)]
      if (!next) return
      event.preventDefault()
      next.focus()
    }
  }

  const { lines, toLookAt, newThreads, unread } = sumReading(shown.reading, shown.dismissed)
  const shownSum = [
    say('{lines, plural, one {# line} other {# lines}} read', { lines }),
    toLookAt > 0 ? say('{toLookAt} to look at', { toLookAt }) : say('nothing more to look at'),
    newThreads > 0 && say('{newThreads, plural, one {# thread} other {# threads}} not on record yet', { newThreads }),
    unread > 0 && say('{unread, plural, one {# line} other {# lines}} of the text not read', { unread }),
  ].filter(Boolean)

  return (
    <DeskContext value={{ shown, units, correct, undo, moveOn, setActive, followed, isActive: (line) => active.includes(line) }}>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: keys that hold for every field in it */}
      <div onKeyDown={onKeyDown}>
        <div ref={desk}>
          <div className={s.sum}>
            <p>
              <b>{shownSum.join(', ')}.</b>
            </p>
            <div className={s.sumActs}>
              <label>
                <input type="checkbox" checked={isOnlyDoubtful} onChange={({ target }) => setIsOnlyDoubtful(target.checked)} />
                {say('Only what is to be looked at')}
              </label>
              <a href="#save">{say('To saving')}</a>
              <Shortcuts />
            </div>
          </div>
          <div role="status" className={s.said}>
            {said?.kind === 'followed' && (
              <Notice
                kind="done"
                title={say('Changed in {count, plural, one {# more line} other {# more lines}}', { count: said.count })}
                actions={
                  <>
                    <Button onClick={() => void undo()}>{say('Undo')}</Button>
                    {said.last.some((one) => one.kind === 'field') && (
                      <Button onClick={() => void onlyThis(said.last)}>{say('Only this line')}</Button>
                    )}
                  </>
                }
              >
                {say('They were read the same way, and are marked.')}
              </Notice>
            )}
            {said?.kind === 'refused' && <Notice kind="refusal" title={said.message} />}
          </div>
          <div className={s.desk}>
            <SourcePane source={source} active={active} />
            <div className={s.read} data-only={isOnlyDoubtful || undefined}>
              <MakerLessons makerNames={makerNames} lineNames={lineNames} />
              {shown.reading.designs.map((_, design) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: a design is known by its place in the reading
                <DesignReview key={design} design={design} source={source} makerNames={makerNames} lineNames={lineNames} />
              ))}
              <UnreadLines source={source} />
              <ColumnLessons source={source} />
              <p>
                <Button onClick={() => void undo()} disabled={!shown.canUndo}>
                  {say('Undo the last correction')}
                </Button>
              </p>
            </div>
          </div>
        </div>
        <div ref={save} tabIndex={-1} className={s.save}>
          <Section title={say('Save it')} id="save">
            <SaveForm {...saving} shown={shown} />
          </Section>
        </div>
      </div>
    </DeskContext>
  )
}

const shortcuts = () =>
  [
    [say('Enter'), say('it is right: on to the next to look at')],
    [say('Tab'), say('the next to look at')],
    ['↑ ↓', say('the same field, a line up or down')],
    ['Alt + ↑ ↓', say('the one to look at before, after')],
    [say('Space'), say('open a thread: choose, mend, search')],
    [say('Esc'), say('leave a field as it was')],
    ['Alt + Z', say('undo the last correction')],
  ] as const

function Shortcuts() {
  return (
    <div className={s.shortcuts}>
      <Unfold label={say('Keys')}>
        <dl>
          {shortcuts().map(([key, does]) => (
            <div key={key}>
              <dt>
                <kbd>{key}</kbd>
              </dt>
              <dd>{does}</dd>
            </div>
          ))}
        </dl>
      </Unfold>
    </div>
  )
}
