import type { ReactNode } from 'react'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { BrokenPromiseNamed } from '#lib/stock/broken-promises'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { counted, threadLength } from '#words/amounts'
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
      title={broken.length === 1 ? 'A promise no longer holds' : `${counted(broken.length, 'promise')} no longer hold`}
      actions={actions}
    >
      <ul>
        {broken.map((promise) => (
          <li key={promise.promiseId}>
            {about !== 'project' && (
              <>
                <Link href={`/projects/${promise.project.id}`} className="title">
                  {promise.project.title}
                </Link>
                {promise.project.forWhom && ` for ${promise.project.forWhom}`}:{' '}
              </>
            )}
            {threadLength(promise.promisedStrandTenths, promise.thread.strands, unit)}
            {about !== 'thread' && (
              <>
                {' '}
                of <Link href={`/threads/${promise.thread.id}`}>{threadName(promise.thread)}</Link>
              </>
            )}
            {promise.lot && `, lot ${promise.lot},`} promised; {whatIsLeft(promise, unit)}.
          </li>
        ))}
      </ul>
      {about !== 'project' && <p>Open the project and promise again: it then takes what is free elsewhere.</p>}
    </Notice>
  )
}

function whatIsLeft({ why, supportedStrandTenths, thread }: BrokenPromiseNamed, unit: ThreadLengthUnit): string {
  switch (why) {
    case 'gone':
      return 'that stock is no longer on record'
    case 'other-owner':
      return 'that stock belongs to another owner now'
    case 'not-enough':
      return supportedStrandTenths === 0
        ? 'none of it is left for it'
        : `${threadLength(supportedStrandTenths, thread.strands, unit)} of it is left for it`
  }
}
