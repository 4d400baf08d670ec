'use client'

import { say } from '#language/say'
import { Button } from '#ui/button'
import { Unfold } from '#ui/unfold'
import type { SentCorrection } from '../../../_reading/correction-schema'
import type { SourceShown } from '../../../_reading/review-shown'
import { useDesk } from './desk-context'
import s from './unread-lines.module.css'

/** Lines of the text that were not read: each can be made a line of the key, or be left. */
export function UnreadLines({ source }: { source: SourceShown }) {
  const { shown, correct, setActive } = useDesk()
  const dismissed = new Set(shown.dismissed)
  const unread = shown.reading.unread.filter((line) => !dismissed.has(line) && source.lines[line]?.text.trim() !== '')
  if (unread.length === 0) return null
  const target = listBefore
  return (
    <div className={s.unread}>
      <Unfold
        label={say('Not read: {unread, plural, one {# line} other {# lines}} of the text', { unread: unread.length })}
        isOpenAtFirst={unread.length <= 12}
      >
        <p className={s.unreadAll}>
          <span>{say('A line of the key among them? Make it one. The rest may be left.')}</span>
          <Button
            kind="quiet"
            onClick={() =>
              void correct(unread.map((sourceLine): SentCorrection => ({ kind: 'dismiss', sourceLine })).slice(0, 200))
            }
          >
            {say('Leave them all')}
          </Button>
        </p>
        <ul>
          {unread.map((line) => (
            <li key={line} onFocus={() => setActive([line])}>
              <span>{source.lines[line]?.text}</span>
              <span className={s.unreadActs}>
                <Button
                  kind="quiet"
                  onClick={() => void correct([{ kind: 'make line', ...target(line), sourceLine: line }])}
                  aria-label={say('Make it a line of the key: {text}', { text: source.lines[line]?.text })}
                >
                  {say('Make it a line')}
                </Button>
                <Button
                  kind="quiet"
                  onClick={() => void correct([{ kind: 'dismiss', sourceLine: line }])}
                  aria-label={say('Leave it: {text}', { text: source.lines[line]?.text })}
                >
                  {say('Leave it')}
                </Button>
              </span>
            </li>
          ))}
        </ul>
      </Unfold>
    </div>
  )

  /** The list whose lines stand before it in the text, else the first there is. */
  function listBefore(sourceLine: number): { design: number; list: number } {
    let best = { design: 0, list: 0 }
    let at = -1
    shown.reading.designs.forEach(({ lists }, design) => {
      lists.forEach(({ lines }, list) => {
        const last = Math.max(-1, ...lines.flatMap(({ from }) => from.filter((one) => one < sourceLine)))
        if (last > at) [best, at] = [{ design, list }, last]
      })
    })
    return best
  }
}
