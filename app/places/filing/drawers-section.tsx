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
      head: 'Drawer',
      cell: ({ id, label }) => <PlaceLabel label={label} href={`/places/${id}`} />,
      phone: 'lead',
    },
    { key: 'codes', head: 'Codes', cell: ({ codes }) => rangeWords(codes), phone: 'line' },
    {
      key: 'full',
      head: 'Taken',
      cell: (row) => (
        <>
          {taken(row)} of {row.capacity}
          {row.others > 0 && <span className="quiet">, {counted(row.others, 'other')} among them</span>}
          {taken(row) > row.capacity && <b className="do"> {taken(row) - row.capacity} too many</b>}
        </>
      ),
      phone: 'labelled',
    },
    {
      key: 'share',
      head: 'Full',
      cell: (row) => `${Math.round((taken(row) * 100) / row.capacity)} %`,
      isNumeric: true,
      phone: 'side',
    },
  ]
  return (
    <Section title="Its drawers now" note={counted(drawers.length, 'drawer')}>
      <Ledger caption="Drawers of the line as they stand" columns={columns} rows={rows} rowKey={({ id }) => id} isTight />
    </Section>
  )
}
