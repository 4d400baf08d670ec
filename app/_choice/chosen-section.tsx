import { say } from '#language/say'
import type { Answers } from '#lib/db/answers/answers'
import type { Chosen } from '#lib/db/planning/together/choice-jobs'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { valueWords } from '#words/choice'
import { namesIn } from '#words/names'
import { addressOf, type ChoiceScreen } from './screens'
import { StartLink } from './start-link'

type ChosenSectionProps = { answer: Chosen; answers: Answers; screen: ChoiceScreen }

/** The designs chosen with cloth aside, worth most first. */
export function ChosenSection({ answer: { choice, question }, answers, screen }: ChosenSectionProps) {
  if (choice.placed.length === 0) return null
  const { names } = namesIn(answers)
  const chosen = new Map(choice.placed.map((one) => [one.designId, one]))
  const rows = question.candidates.filter(({ designId }) => chosen.has(designId))
  const listName = (designId: string) => {
    const lists = question.world.designs.find(({ id }) => id === designId)?.lists ?? []
    return lists.length > 1
  }
  return (
    <Section
      title={say('These go together')}
      id="chosen"
      note={say('Nothing is set aside yet.')}
      actions={<Link href={addressOf[screen]}>{say('Ask again')}</Link>}
    >
      <Ledger
        caption={say('The designs chosen, those that count most first')}
        rows={rows}
        rowKey={({ designId }) => designId}
        columns={[
          {
            key: 'design',
            head: say('Design'),
            phone: 'lead',
            cell: ({ designId, copies }) => (
              <>
                <Link href={`/designs/${designId}`} className="title">
                  {names.design(designId)}
                </Link>
                {copies > 1 && ` × ${copies}`}
              </>
            ),
          },
          {
            key: 'why',
            head: say('Why it counts'),
            phone: 'line',
            cell: ({ designId, parts, usual, value }) => (
              <small>
                {value === usual ? valueWords(parts) : say('as was typed')}
                {listName(designId) && say(', one of its lists chosen')}
              </small>
            ),
          },
          { key: 'value', head: say('Counts'), isNumeric: true, phone: 'side', cell: ({ value }) => value },
          {
            key: 'start',
            head: say('Start it'),
            headIsHidden: true,
            isAtEnd: true,
            isOffPaper: true,
            phone: 'side',
            cell: (candidate) => (
              <StartLink designId={candidate.designId} title={names.design(candidate.designId)} candidate={candidate} />
            ),
          },
        ]}
      />
    </Section>
  )
}
