import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { FiledLine, Filing } from '#lib/db/filing/read-filing'
import { planFiling, type Slot } from '#lib/place/filing-plan'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { Sum, Sums } from '#ui/sum'
import { Unfold, UnfoldButton } from '#ui/unfold'
import s from './filing.module.css'
import { type FilingChoices, searchOf } from './schema'
import { rangeWords } from './words'

/** All laid out anew, with gaps: how many drawers it takes, and which code goes in which compartment. */
export function AfreshSection({
  filing: { lines, growth, drawers: standing, compartments },
  choices,
}: {
  filing: Filing
  choices: FilingChoices
}) {
  if (lines.length === 0) return null
  const capacity = compartments?.added.length ?? choices.capacity
  const { drawers, drawersPacked, perDrawer } = planFiling(lines, { compartments: capacity, percent: choices.fill })
  type Row = { number: number; slots: Slot<FiledLine>[] }
  const columns: Column<Row>[] = [
    { key: 'number', head: say('Drawer'), cell: ({ number }) => <b>{sayParts('Drawer {number}', { number })}</b>, phone: 'lead' },
    { key: 'codes', head: say('Codes'), cell: ({ slots }) => rangeWords(slots.map(({ item }) => item.code)), phone: 'line' },
    { key: 'count', head: say('How many'), cell: ({ slots }) => slots.length, isNumeric: true, phone: 'labelled' },
    {
      key: 'slots',
      head: say('Compartments'),
      cell: () => <UnfoldButton>{say('Compartments')}</UnfoldButton>,
      isAtEnd: true,
      phone: 'side',
      isOffPaper: true,
    },
  ]
  return (
    <Section
      title={say('Laid out afresh')}
      note={say(
        '{lines, plural, one {# code} other {# codes}}, {perDrawer} to a drawer of {capacity}: {drawers, plural, one {# drawer} other {# drawers}}, or {drawersPacked} packed without a gap.',
        { lines: lines.length, perDrawer, capacity, drawers: drawers.length, drawersPacked },
      )}
    >
      <Unfold label={say('How many drawers that makes')}>
        <Sums>
          <Sum
            title={say('With room to grow')}
            rows={[
              {
                label: say('To a drawer'),
                how: say('{capacity} × {fill} %, rounded down', { capacity, fill: choices.fill }),
                figure: perDrawer,
              },
              {
                label: say('Drawers'),
                how: say('{lines, number} ÷ {perDrawer}, rounded up', { lines: lines.length, perDrawer }),
                figure: drawers.length,
                kind: 'end',
              },
            ]}
          />
          <Sum
            title={say('Packed without a gap')}
            rows={[
              {
                label: say('Drawers'),
                how: say('{lines, number} ÷ {perDrawer}, rounded up', { lines: lines.length, perDrawer: capacity }),
                figure: drawersPacked,
                kind: 'end',
              },
            ]}
          />
        </Sums>
      </Unfold>
      {standing.length > 0 && (
        <p className={s.aside}>
          {growth.choices.some(({ way }) => way === 'afresh')
            ? sayParts('The drawers there are suffice for this: <link>the moves it takes</link>.', {
                link: (words) => <Link href={`/places/filing?${searchOf(choices, { way: 'afresh' })}`}>{words}</Link>,
              })
            : say('The drawers there are do not suffice for this.')}
        </p>
      )}
      <Ledger
        caption={say('Drawers if all is laid out afresh')}
        columns={columns}
        rows={drawers.map((slots, index) => ({ number: index + 1, slots }))}
        rowKey={({ number }) => number}
        under={({ slots }) => (
          <ol className={s.slots}>
            {slots.map(({ compartment, item }) => (
              <li key={compartment}>
                <span>{compartment}</span> <b>{item.code}</b> {item.name !== item.code && item.name}
              </li>
            ))}
          </ol>
        )}
        isTight
      />
    </Section>
  )
}
