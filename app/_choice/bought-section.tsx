import { say } from '#language/say'
import type { Answers } from '#lib/db/answers/answers'
import type { Bought, Placed } from '#lib/planning/together/choice-world'
import { LinkButton } from '#ui/button'
import { Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { boughtWords } from '#words/choice'
import { priceWords } from '#words/price'
import s from './choice.module.css'
import { ThreadOf } from './thread-of'

type BoughtSectionProps = { placed: readonly Placed[]; bought: readonly Bought[]; answers: Answers }

/** What is to be bought for the designs chosen, and the way to the list to shop by. */
export function BoughtSection({ placed, bought, answers }: BoughtSectionProps) {
  if (bought.length === 0) return null
  const { currency } = answers.world.settings
  const query = new URLSearchParams(
    placed.flatMap(({ designId, listId }) => [
      ['design', designId],
      ['list', listId],
    ]),
  )
  return (
    <Section title={say('To buy for them')} id="buy" note={`${boughtWords(bought, currency)}.`}>
      <Ledger
        caption={say('Thread to buy for the designs chosen')}
        rows={bought}
        rowKey={({ threadId }) => threadId}
        columns={[
          {
            key: 'thread',
            head: say('Thread'),
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
            cell: ({ minor }) => (minor === null ? say('no price') : priceWords(minor, currency)),
          },
        ]}
      />
      <div className={s.actions}>
        <LinkButton href={`/buy?${query}`}>{say('The list to buy by')}</LinkButton>
      </div>
    </Section>
  )
}
