import { say } from '#language/say'
import type { Answers } from '#lib/db/answers/answers'
import type { Unlock } from '#lib/planning/together/unlocks'
import { Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { counted, listed } from '#words/amounts'
import { namesIn } from '#words/names'
import { priceWords } from '#words/price'
import { ThreadOf } from './thread-of'

const mostShown = 20

type UnlocksSectionProps = { unlocks: readonly Unlock[]; answers: Answers }

/** By thread, which designs buying it alone makes stitchable, each by itself. */
export function UnlocksSection({ unlocks, answers }: UnlocksSectionProps) {
  if (unlocks.length === 0) return null
  const { currency } = answers.world.settings
  const { names } = namesIn(answers)
  const rows = unlocks.slice(0, mostShown).flatMap((unlock) =>
    unlock.steps.map(({ putUps, designIds }, at) => {
      const before = unlock.steps.slice(0, at).reduce((sum, step) => sum + step.designIds.length, 0)
      return { ...unlock, putUps, designIds, count: before + designIds.length, isMore: before > 0 }
    }),
  )
  return (
    <Section
      title={say('What one thread would unlock')}
      id="unlocks"
      note={say('Designs that lack this thread alone, each taken by itself.')}
    >
      <Ledger
        caption={say('Threads that buying alone makes designs stitchable')}
        rows={rows}
        rowKey={({ threadId, putUps }) => `${threadId} ${putUps}`}
        columns={[
          {
            key: 'thread',
            head: say('Buy'),
            phone: 'lead',
            cell: ({ threadId, isOneLot }) => (
              <ThreadOf threadId={threadId} answers={answers} {...(isOneLot && { note: say('all of one lot') })} />
            ),
          },
          { key: 'putUps', head: say('Put-ups'), isNumeric: true, phone: 'side', cell: ({ putUps }) => `× ${putUps}` },
          {
            key: 'cost',
            head: say('Cost'),
            isNumeric: true,
            phone: 'side',
            cell: ({ priceMinor, putUps }) => (priceMinor === null ? '' : priceWords(priceMinor * putUps, currency)),
          },
          {
            key: 'designs',
            head: say('Makes stitchable'),
            phone: 'line',
            cell: ({ designIds, count, isMore }) => (
              <>
                <b>{counted(count, 'design')}</b>
                {isMore ? say(' in all; besides ') : ': '}
                {listed(designIds.slice(0, 4).map(names.design))}
                {designIds.length > 4 && say(' and {designIds} more', { designIds: designIds.length - 4 })}
              </>
            ),
          },
        ]}
      />
      {unlocks.length > mostShown && (
        <p className="quiet">
          {say('{unlocks, plural, one {# more thread} other {# more threads}} not shown.', {
            unlocks: unlocks.length - mostShown,
          })}
        </p>
      )}
    </Section>
  )
}
