'use client'

import { useContext } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { SelectField, TextField } from '#ui/field'
import { Unfold } from '#ui/unfold'
import { singular } from '#words/amounts'
import { FormContext } from '../../../_ui/form-context'
import s from './finish.module.css'

type LeftoverFieldsProps = {
  /** The names of the two fields. */
  how: string
  left: string
  /** The thread, for those who hear the page. */
  threadName: string
  putUpWord: string
  putUpMilligrams: number | null
  unit: ThreadLengthUnit
}

/** How much of a thread is left and how that was found out; folded away until it is wanted or something in it is wrong. */
export function LeftoverFields({ how, left, threadName, putUpWord, putUpMilligrams, unit }: LeftoverFieldsProps) {
  const form = useContext(FormContext)
  const isWrong = Boolean(form?.errors[how] || form?.errors[left])
  return (
    <div className={s.leftover}>
      <Unfold
        key={isWrong ? 'wrong' : 'right'}
        isOpenAtFirst={isWrong || Boolean(form?.values[left])}
        label={sayParts('Measured or weighed what is left<span> of {threadName}</span>', {
          span: (words) => <span className="vh">{words}</span>,
          threadName,
        })}
      >
        <div className={s.leftoverFields}>
          <SelectField
            name={how}
            label={sayParts('What is left<span> of {threadName}</span>', {
              span: (words) => <span className="vh">{words}</span>,
              threadName,
            })}
            none={say('was not measured')}
            options={[
              { value: 'measured', label: say('was measured') },
              { value: 'weighed', label: weighedWords(putUpMilligrams, putUpWord), isDisabled: putUpMilligrams === null },
            ]}
            width="half"
          />
          <TextField
            name={left}
            label={sayParts('So much<span> of {threadName}</span>', {
              span: (words) => <span className="vh">{words}</span>,
              threadName,
            })}
            placeholder={putUpMilligrams === null ? `2.5 ${unit}` : say('2.5 {unit} or 0.8 g', { unit })}
            width="short"
          />
        </div>
      </Unfold>
    </div>
  )
}

/** "was weighed (a full skein is 4.6 g)". */
const weighedWords = (putUpMilligrams: number | null, putUpWord: string): string =>
  putUpMilligrams === null
    ? say('was weighed: first say on its line what a full {putUpWord} weighs', { putUpWord: singular(putUpWord) })
    : say('was weighed (a full {putUpWord} is {putUpMilligrams} g)', {
        putUpWord: singular(putUpWord),
        putUpMilligrams: putUpMilligrams / 1_000,
      })
