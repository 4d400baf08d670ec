'use client'

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
      note={`Step ${done + 1} of ${of}; ${foundWords(found)} so far`}
      stop={<Form action={stopCheckAction} hidden={{ jobId }} submit="Stop" submitKind="plain" />}
    />
  )
}
