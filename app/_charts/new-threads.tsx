'use client'

import { useContext } from 'react'
import { say } from '#language/say'
import { CheckField } from '#ui/field'
import { FormContext } from '../_ui/form-context'
import s from './list-form.module.css'
import { meantText, newThreadsShown } from './new-threads-text'

/** Threads that would be new, to be looked over before they are added; nothing until a save was held back for them. */
export function NewThreads() {
  const text = useContext(FormContext)?.values.newThreads
  const threads = newThreadsShown(text)
  if (text === undefined || threads.length === 0) return null
  return (
    <div className={s.fresh}>
      <p className={s.head}>{say('Not on record yet')}</p>
      <ul>
        {threads.map(({ key, words }) => (
          <li key={key}>{words}</li>
        ))}
      </ul>
      <input type="hidden" name="newThreads" value={text} />
      {/* Other threads, another question: the tick starts empty again. */}
      <CheckField
        key={text}
        name="mayAdd"
        value={meantText(threads)}
        label={threads.length === 1 ? say('It is meant: add it') : say('They are all meant: add them')}
      />
    </div>
  )
}
