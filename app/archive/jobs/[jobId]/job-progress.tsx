'use client'

import { numberText } from '#language/figures'
import { say } from '#language/say'
import type { ArchiveProgress } from '#lib/db/archive/write-archive'
import { Form } from '#ui/form'
import { Progress } from '#ui/progress'
import { usePolling } from '#ui/use-polling'
import { stopAction } from '../../actions'

type Answer = { isOver: boolean; progress: ArchiveProgress }
type JobProgressProps = { jobId: string; first: ArchiveProgress; words: Record<ArchiveProgress['step'], string> }

const figure = (count: number): string => numberText(count)

/** The bar of an archive being written or brought back; once it is over, its page says how it went. */
export function JobProgress({ jobId, first, words }: JobProgressProps) {
  const answer = usePolling<Answer>(`/archive/jobs/${jobId}/progress`, ({ isOver }) => isOver)
  const { step, done, of } = answer?.progress ?? first
  return (
    <Progress
      label={words[step]}
      done={done}
      of={of > 0 ? of : undefined}
      note={of > 0 ? say('{figure} of {figure2}', { figure: figure(done), figure2: figure(of) }) : say('One moment')}
      stop={<Form action={stopAction} hidden={{ jobId }} submit={say('Stop')} submitKind="plain" />}
    />
  )
}
