import type { ReactNode } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { BrokenPromiseNamed } from '#lib/stock/broken-promises'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { threadLength } from '#words/amounts'
import { threadName } from '#words/thread'

type BrokenPromisesProps = {
  broken: readonly BrokenPromiseNamed[]
  unit: ThreadLengthUnit
  /** What the page is about, which its sentences then need not name. */
  about?: 'project' | 'thread'
  /** What mends it; left out, each line leads to its project. */
  actions?: ReactNode
}

/** Promises that stock no longer supports, each with what is left of it. Nothing at all when every promise holds. */
export function BrokenPromises({ broken, unit, about, actions }: BrokenPromisesProps) {
  if (broken.length === 0) return null
  return (
    <Notice
      kind="caution"
      title={
        broken.length === 1
          ? say('A promise no longer holds')
          : say('{broken, plural, one {# promise} other {# promises}} no longer hold', { broken: broken.length })
      }
      actions={actions}
    >
      <ul>
        {broken.map((promise) => (
          <li key={promise.promiseId}>
            {sayParts('{rest}{threadLength}{rest2}{rest3} promised; {whatIsLeft}.', {
              rest: about !== 'project' && (
                <>
                  <Link href={`/projects/${promise.project.id}`} className="title">
                    {promise.project.title}
                  </Link>
                  {promise.project.forWhom && say(' for {forWhom}', { forWhom: promise.project.forWhom })}:{' '}
                </>
              ),
              threadLength: threadLength(promise.promisedStrandTenths, promise.thread.strands, unit),
              rest2:
                about !== 'thread' &&
                sayParts(' of {threadName}', {
                  threadName: <Link href={`/threads/${promise.thread.id}`}>{threadName(promise.thread)}</Link>,
                }),
              rest3: promise.lot && say(', lot {lot},', { lot: promise.lot }),
              whatIsLeft: whatIsLeft(promise, unit),
            })}
          </li>
        ))}
      </ul>
      {about !== 'project' && <p>{say('Open the project and promise again: it then takes what is free elsewhere.')}</p>}
    </Notice>
  )
}

function whatIsLeft({ why, supportedStrandTenths, thread }: BrokenPromiseNamed, unit: ThreadLengthUnit): string {
  switch (why) {
    case 'gone':
      return say('that stock is no longer on record')
    case 'other-owner':
      return say('that stock belongs to another owner now')
    case 'not-enough':
      return supportedStrandTenths === 0
        ? say('none of it is left for it')
        : say('{threadLength} of it is left for it', { threadLength: threadLength(supportedStrandTenths, thread.strands, unit) })
  }
}
