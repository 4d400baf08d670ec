import { say } from '#language/say'
import type { Answers } from '#lib/db/answers/answers'
import type { Column } from '#ui/ledger'
import { ThreadWord } from './thread-word'

/** What a list says, pair by pair. */
export const pairColumns = (answers: Answers): Column<{ threadId: string; otherThreadId: string }>[] => [
  {
    key: 'of',
    head: say('In place of'),
    phone: 'lead',
    cell: ({ threadId }) => <ThreadWord answers={answers} threadId={threadId} />,
  },
  {
    key: 'use',
    head: say('It says'),
    phone: 'line',
    cell: ({ otherThreadId }) => <ThreadWord answers={answers} threadId={otherThreadId} />,
  },
]
