import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { Filing, FilingDrawer } from '#lib/db/filing/read-filing'
import { PlaceLabel } from '#trade/place-label'
import { type Column, Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { rangeWords } from './words'

/** The drawers as they stand: what is in each, and how full it is. */
export function DrawersSection({ filing: { drawers, lines } }: { filing: Filing }) {
  const rows = drawers.map((drawer, turn) => ({
    ...drawer,
    codes: lines.filter((line) => line.drawer === turn).map(({ code }) => code),
  }))
  type Row = FilingDrawer & { codes: string[] }
  const taken = ({ codes, others }: Row) => codes.length + others
  const columns: Column<Row>[] = [
    {
      key: 'drawer',
      head: say('Drawer'),
      cell: ({ id, label }) => <PlaceLabel label={label} href={`/places/${id}`} />,
      phone: 'lead',
    },
    { key: 'codes', head: say('Codes'), cell: ({ codes }) => rangeWords(codes), phone: 'line' },
    {
      key: 'full',
      head: say('Taken'),
      cell: (row) =>
        sayParts('{taken} of {capacity}{rest}{rest2}', {
          taken: taken(row),
          capacity: row.capacity,
          rest: row.others > 0 && (
            <span className="quiet">
              {say(', {others, plural, one {# other} other {# others}} among them', { others: row.others })}
            </span>
          ),
          rest2: taken(row) > row.capacity && (
            <b className="do"> {say('{taken} too many', { taken: taken(row) - row.capacity })}</b>
          ),
        }),
      phone: 'labelled',
    },
    {
      key: 'share',
      head: say('Full'),
      cell: (row) => `${Math.round((taken(row) * 100) / row.capacity)} %`,
      isNumeric: true,
      phone: 'side',
    },
  ]
  return (
    <Section title={say('Its drawers now')} note={counted(drawers.length, 'drawer')}>
      <Ledger caption={say('Drawers of the line as they stand')} columns={columns} rows={rows} rowKey={({ id }) => id} isTight />
    </Section>
  )
}
