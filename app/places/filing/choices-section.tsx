import { say } from '#language/say'
import type { Filing } from '#lib/db/filing/read-filing'
import { type FilingChoice, frontsChanged } from '#lib/place/filing-moves'
import { type Column, Ledger } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { Section } from '#ui/section'
import { type FilingChoices, searchOf } from './schema'
import { standsWords, wayWords } from './words'

type ChoicesSectionProps = { filing: Filing; choices: FilingChoices; chosen: FilingChoice | null; coming: number }

/** What can be done to make room, side by side. */
export function ChoicesSection({ filing, choices, chosen, coming }: ChoicesSectionProps) {
  const { growth, lines, drawers, compartments } = filing
  const filed = lines.map(({ drawer }) => drawer)
  const room = drawers.reduce((sum, { places }) => sum + places.length, 0)
  const fits = growth.choices.some(({ way }) => way !== 'added')
  const columns: Column<FilingChoice>[] = [
    {
      key: 'way',
      head: say('Way'),
      cell: (choice) => (
        <>
          {wayWords(choice.way, filing, choices.fill)}
          {choice.way === 'added' && `, ${standsWords(filing, choice)}`}
          {choice.way === growth.recommended && <b>{say(': fewest moves')}</b>}
        </>
      ),
      phone: 'lead',
    },
    { key: 'moved', head: say('Change drawer'), cell: ({ moved }) => <b>{moved}</b>, isNumeric: true, phone: 'labelled' },
    ...(compartments
      ? [
          {
            key: 'shifted',
            head: say('Shift inside'),
            cell: ({ shifted }: FilingChoice) => shifted,
            isNumeric: true,
            phone: 'labelled' as const,
          },
        ]
      : []),
    {
      key: 'fronts',
      head: say('Drawer labels to print'),
      cell: (choice) => frontsChanged(choice, filed).length,
      isNumeric: true,
      phone: 'labelled',
    },
    {
      key: 'shown',
      head: say('Shown below'),
      headIsHidden: true,
      cell: (choice) => choice === chosen && say('shown below'),
      isAtEnd: true,
      phone: 'side',
      isOffPaper: true,
    },
  ]
  return (
    <Section
      title={
        coming > 0
          ? say('Room for {coming, plural, one {# more code} other {# more codes}}', { coming })
          : say('In order as it stands')
      }
      note={
        compartments
          ? say(
              'How many change drawer, and how many of the others shift to another compartment of theirs. What comes in counts when it goes to another drawer than the one it falls in.',
            )
          : say('How many change drawer; what comes in counts when it goes to another drawer than the one it falls in.')
      }
    >
      {!fits && (
        <Notice
          kind="caution"
          title={say('{lines, plural, one {# code} other {# codes}} do not fit: these drawers have room for {room}.', {
            lines: lines.length,
            room,
          })}
        >
          {growth.choices.length > 0
            ? say('With one drawer more they do.')
            : say(
                'One drawer more is not enough, or these drawers hold it out of this order. See below how it would lie afresh.',
              )}
        </Notice>
      )}
      {growth.choices.length > 0 && (
        <Ledger
          caption={say('Ways to make room')}
          columns={columns}
          rows={growth.choices}
          rowKey={({ way }) => way}
          rowHref={({ way }) => `/places/filing?${searchOf(choices, { way })}`}
        />
      )}
    </Section>
  )
}
