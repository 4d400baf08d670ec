'use client'

import { say } from '#language/say'
import type { CheckProgress as Standing } from '#lib/db/checking/check-collection'
import { Form } from '#ui/form'
import { Progress } from '#ui/progress'
import { usePolling } from '#ui/use-polling'
import { checkStepWords, foundWords } from '#words/checking'
import { stopCheckAction } from './actions'

/** The bar of a check that runs; once it has ended, the page says what was found. */
export function CheckProgress({ jobId, first }: { jobId: string; first: Standing }) {
  const answer = usePolling<{ isRunning: boolean; progress: Standing }>(
    `/settings/check/jobs/${jobId}/progress`,
    ({ isRunning }) => !isRunning,
  )
  const { step, done, of, found } = answer?.progress ?? first
  return (
    <Progress
      label={checkStepWords[step]}
      done={done}
      of={of}
      note={say('Step {done} of {of}; {found} so far', { done: done + 1, of, found: foundWords(found) })}
      stop={<Form action={stopCheckAction} hidden={{ jobId }} submit={say('Stop')} submitKind="plain" />}
    />
  )
}
