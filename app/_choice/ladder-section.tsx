import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { Answers } from '#lib/db/answers/answers'
import type { LadderStep } from '#lib/db/planning/together/choice-jobs'
import { type Buying, mostBought } from '#lib/planning/together/choice-world'
import { Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { counted, listed } from '#words/amounts'
import { boughtWords, ladderProof, limitShort } from '#words/choice'
import { namesIn } from '#words/names'
import { StepPlot } from './step-plot'

type LadderSectionProps = { ladder: readonly LadderStep[]; asked: Buying; answers: Answers }

/** What each limit to buying brings: the worth of the best choice within it, as steps and as figures. */
export function LadderSection({ ladder, asked, answers }: LadderSectionProps) {
  if (ladder.length < 2) return null
  const { currency } = answers.world.settings
  const { names } = namesIn(answers)
  const most = Math.max(...ladder.map(({ value }) => value))
  if (most === ladder[0]?.value)
    return (
      <Section title={say('What more buying would bring')} id="ladder">
        <p>
          {sayParts('Nothing: up to {limitShort} no choice was found that is worth more than {most}, with nothing bought.', {
            limitShort: limitShort((ladder.at(-1) as LadderStep).buying, currency),
            most,
          })}
        </p>
      </Section>
    )
  const rows = ladder.map((step, at) => {
    const before = new Set(ladder[at - 1]?.designIds ?? [])
    const gained = step.designIds.filter((id) => !before.has(id)).map(names.design)
    return { ...step, more: step.value - (ladder[at - 1]?.value ?? step.value), gained: at === 0 ? [] : gained, at }
  })
  const isAsked = ({ buying }: LadderStep) => mostBought(buying) === mostBought(asked)
  return (
    <Section title={say('What more buying would bring')} id="ladder" note={say('The best choice within each limit.')}>
      <StepPlot
        label={say('Worth of the best choice, by what may be bought. The figures stand in the table below.')}
        steps={ladder.map((step) => ({
          at: mostBought(step.buying),
          value: step.value,
          words: limitShort(step.buying, currency),
          isMarked: isAsked(step),
        }))}
      />
      <Ledger
        caption={say('What each limit to buying brings')}
        rows={rows}
        rowKey={({ at }) => at}
        columns={[
          {
            key: 'limit',
            head: say('At most'),
            phone: 'lead',
            cell: (row) => (
              <>
                {limitShort(row.buying, currency)}
                {isAsked(row) && <b>{say(', as asked')}</b>}
              </>
            ),
          },
          {
            key: 'worth',
            head: say('Worth'),
            isNumeric: true,
            phone: 'side',
            cell: ({ value, more }) => (more > 0 ? `${value} (+${more})` : value),
          },
          {
            key: 'designs',
            head: say('Designs'),
            isNumeric: true,
            phone: 'side',
            cell: ({ designIds }) => counted(designIds.length, 'design'),
          },
          {
            key: 'bought',
            head: say('Bought'),
            phone: 'line',
            cell: ({ bought, gained }) => (
              <>
                {bought.length === 0
                  ? say('nothing')
                  : say('{bought}{rest}; {bought2}', {
                      bought: listed(bought.slice(0, 4).map(({ threadId, putUps }) => `${names.thread(threadId)} × ${putUps}`)),
                      rest: bought.length > 4 ? say(' and {bought} more', { bought: bought.length - 4 }) : '',
                      bought2: boughtWords(bought, currency),
                    })}
                {gained.length > 0 && (
                  <>
                    <br />
                    <small className="quiet">
                      {sayParts('now in: {gained}{rest}', {
                        gained: listed(gained.slice(0, 3)),
                        rest: gained.length > 3 && say(' and {gained} more', { gained: gained.length - 3 }),
                      })}
                    </small>
                  </>
                )}
              </>
            ),
          },
          { key: 'proof', head: say('How sure'), phone: 'line', cell: (row) => <small>{ladderProof(row)}</small> },
        ]}
      />
    </Section>
  )
}
