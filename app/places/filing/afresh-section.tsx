import type { FiledLine, Filing } from '#lib/db/filing/read-filing'
import { planFiling, type Slot } from '#lib/place/filing-plan'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { UnfoldButton } from '#ui/unfold'
import { counted } from '#words/amounts'
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
    { key: 'number', head: 'Drawer', cell: ({ number }) => <b>Drawer {number}</b>, phone: 'lead' },
    { key: 'codes', head: 'Codes', cell: ({ slots }) => rangeWords(slots.map(({ item }) => item.code)), phone: 'line' },
    { key: 'count', head: 'How many', cell: ({ slots }) => slots.length, isNumeric: true, phone: 'labelled' },
    {
      key: 'slots',
      head: 'Compartments',
      cell: () => <UnfoldButton>Compartments</UnfoldButton>,
      isAtEnd: true,
      phone: 'side',
      isOffPaper: true,
    },
  ]
  return (
    <Section
      title="Laid out afresh"
      note={`${counted(lines.length, 'code')}, ${perDrawer} to a drawer of ${capacity}: ${counted(drawers.length, 'drawer')}, or ${drawersPacked} packed without a gap.`}
    >
      {standing.length > 0 && (
        <p className={s.aside}>
          {growth.choices.some(({ way }) => way === 'afresh') ? (
            <>
              The drawers there are suffice for this:{' '}
              <Link href={`/places/filing?${searchOf(choices, { way: 'afresh' })}`}>the moves it takes</Link>.
            </>
          ) : (
            'The drawers there are do not suffice for this.'
          )}
        </p>
      )}
      <Ledger
        caption="Drawers if all is laid out afresh"
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
