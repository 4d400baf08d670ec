import type { Metadata } from 'next'
import { say } from '#language/say'
import { columnsOf, partsSaid } from '#lib/archive/describe-format'
import { archiveTables, tablesLeftOut } from '#lib/archive/tables'
import { archiveVersion } from '#lib/archive/versions'
import { Facts } from '#ui/facts'
import { type Column, Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { UnfoldButton } from '#ui/unfold'
import s from '../archive.module.css'

export const generateMetadata = (): Metadata => ({ title: say('The format of an archive') })

type Table = (typeof archiveTables)[number]

export default function FormatPage() {
  return (
    <>
      <PageHead
        title={say('The format of an archive')}
        crumbs={[{ label: say('Everything in a file'), href: '/archive' }, { label: say('The format') }]}
        byline={say(
          'Version {archiveVersion}. Later versions of Chart Larder read it too; an archive of a later version is refused with a word about it.',
          { archiveVersion },
        )}
      />
      <Section title={say('What is in it')}>
        <Facts isStacked items={partsSaid.map(({ path, says }) => ({ label: path, value: says }))} />
      </Section>
      <Section
        title={say('Tables')}
        note={say(
          'Lengths are whole numbers in the unit the name ends in: Um, micrometres; StrandTenths, tenths of a millimetre of one strand; PriceMinor, hundredths of the currency.',
        )}
      >
        <Ledger
          caption={say('Tables, each after those its rows name')}
          rows={archiveTables}
          rowKey={({ name }) => name}
          columns={columns()}
          under={(table) => <ColumnsOf table={table} />}
        />
      </Section>
      <Section title={say('What is not in it')}>
        <Facts isStacked items={Object.entries(tablesLeftOut).map(([label, value]) => ({ label, value }))} />
      </Section>
    </>
  )
}

const columns = (): Column<Table>[] => [
  { key: 'name', head: say('Table'), cell: ({ name }) => <b>{name}</b>, width: '13rem', phone: 'lead' },
  { key: 'says', head: say('A row is'), cell: ({ says }) => says, phone: 'wide' },
  {
    key: 'columns',
    head: say('Columns'),
    cell: ({ name }) => <UnfoldButton label={say('{name}: all columns', { name })}>{say('Columns')}</UnfoldButton>,
    width: '8rem',
    phone: 'line',
    isOffPaper: true,
  },
]

const ColumnsOf = ({ table }: { table: Table }) => (
  <dl className={s.columns}>
    {columnsOf(table).map(({ column, says }) => (
      <div key={column}>
        <dt>{column}</dt>
        <dd>{says}</dd>
      </div>
    ))}
  </dl>
)
