'use client'

import { useId, useState } from 'react'
import { say } from '#language/say'
import { linesOf } from '#lib/chart/reading-fields'
import { Button } from '#ui/button'
import { Suggestions } from '#ui/field'
import { Unfold } from '#ui/unfold'
import { useDesk } from './desk-context'
import s from './review.module.css'

type MakerLessonsProps = { makerNames: readonly string[]; lineNames: readonly string[] }

type Group = { maker: string | null; threadLine: string | null; count: number }

/** Threads that are not on record, by whose the text says they are: said once, it holds for all of them. */
export function MakerLessons({ makerNames, lineNames }: MakerLessonsProps) {
  const { shown } = useDesk()
  const makersId = useId()
  const linesId = useId()
  const groups = new Map<string, Group>()
  for (const { line } of linesOf(shown.reading)) {
    for (const { named, match } of line.threads) {
      if (match.kind === 'known') continue
      const [maker, threadLine] = [named.maker?.value ?? null, named.threadLine?.value ?? null]
      const key = JSON.stringify([maker, threadLine])
      const group = groups.get(key) ?? { maker, threadLine, count: 0 }
      groups.set(key, { ...group, count: group.count + 1 })
    }
  }
  if (groups.size === 0) return null
  const lessons = [...groups].map(([key, group]) => <MakerLesson key={key} group={group} makersId={makersId} linesId={linesId} />)
  const isMakerLacking = [...groups.values()].some(({ maker }) => maker === null)
  return (
    <div className={s.makers}>
      <Suggestions id={makersId} suggestions={makerNames} />
      <Suggestions id={linesId} suggestions={lineNames} />
      {isMakerLacking ? (
        <>
          <h2>{say('Whose threads are these?')}</h2>
          <p className="quiet">{say('Said once, it holds for all of them.')}</p>
          {lessons}
        </>
      ) : (
        <Unfold label={say('Threads not on record: is their maker right?')}>{lessons}</Unfold>
      )}
    </div>
  )
}

function MakerLesson({ group, makersId, linesId }: { group: Group; makersId: string; linesId: string }) {
  const { correct } = useDesk()
  const [maker, setMaker] = useState(group.maker ?? '')
  const [threadLine, setThreadLine] = useState(group.threadLine ?? '')
  const said =
    group.maker === null
      ? say('without a maker')
      : say('of {what}', { what: [group.maker, group.threadLine].filter(Boolean).join(' ') })
  const what = say('{count, plural, one {# thread} other {# threads}} {said}, not found on record', { count: group.count, said })
  const taking = group.count === 1 ? say('Take it so') : say('For all {count}', { count: group.count })
  const teach = () => {
    if (maker.trim() === '') return
    const { maker: wasMaker, threadLine: wasLine } = group
    void correct([
      {
        kind: 'lesson',
        lesson: {
          ...{ kind: 'maker', was: { maker: wasMaker, threadLine: wasLine } },
          ...{ maker: maker.trim(), threadLine: threadLine.trim() || null },
        },
      },
    ])
  }
  const onKeyDown = (event: React.KeyboardEvent) => {
    if (event.key !== 'Enter') return
    event.preventDefault()
    teach()
  }
  return (
    <fieldset className={s.makerLesson}>
      <legend>{what}</legend>
      <label>
        <span className={s.factLabel}>{say('Maker')}</span>
        <input
          className={s.input}
          list={makersId}
          autoComplete="off"
          maxLength={200}
          value={maker}
          onChange={({ target }) => setMaker(target.value)}
          onKeyDown={onKeyDown}
        />
      </label>
      <label>
        <span className={s.factLabel}>{say('Line')}</span>
        <input
          className={s.input}
          list={linesId}
          autoComplete="off"
          maxLength={200}
          value={threadLine}
          onChange={({ target }) => setThreadLine(target.value)}
          onKeyDown={onKeyDown}
        />
      </label>
      <Button onClick={teach} aria-label={say('{taking}: take {what} to be of this maker and line', { taking, what })}>
        {taking}
      </Button>
    </fieldset>
  )
}
