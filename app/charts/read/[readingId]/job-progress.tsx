'use client'

import { say } from '#language/say'
import { Form } from '#ui/form'
import { Progress } from '#ui/progress'
import { usePolling } from '#ui/use-polling'
import { stopReadingAction } from '../../../_reading/actions'
import type { progressWords } from '../../../_reading/words'

type Running = ReturnType<typeof progressWords>
type Answer = { isRunning: false } | ({ isRunning: true } & Running)

/** The bar of a file that is being read; once it is read, its page shows what came of it. */
export function JobProgress({ readingId, first }: { readingId: string; first: Running }) {
  const answer = usePolling<Answer>(`/charts/read/${readingId}/progress`, ({ isRunning }) => !isRunning)
  const { label, note, done, of } = answer?.isRunning ? answer : first
  return (
    <Progress
      label={label}
      done={done}
      of={of}
      note={note}
      stop={<Form action={stopReadingAction} hidden={{ readingId }} submit={say('Stop')} submitKind="plain" />}
    />
  )
}
