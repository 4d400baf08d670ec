'use client'

import { use, useId } from 'react'
import { say } from '#language/say'
import { Button } from '#ui/button'
import { FormContext } from '../../../_ui/form-context'
import s from './finish.module.css'

/** The whole form as it is filled in, sent by one press: most of it is right as it stands. The caret is here when the page opens. */
export function AsItStands({ says }: { says: string }) {
  const id = useId()
  const isPending = use(FormContext)?.isPending ?? false
  return (
    <div className={s.quick}>
      <p id={id}>{says}</p>
      <Button
        type="submit"
        kind="first"
        aria-describedby={id}
        aria-disabled={isPending || undefined}
        // Who comes here comes to finish; what it does is said with it.
        autoFocus
        // The Enter that led here may still be held down.
        onKeyDown={(event) => event.repeat && event.preventDefault()}
      >
        {isPending ? say('Writing it down') : say('Write it down as it stands')}
      </Button>
      <p className="quiet">{say('Or change any of it first:')}</p>
    </div>
  )
}
