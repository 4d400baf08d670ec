import { say } from '#language/say'
import type { SheetLayout } from '#lib/importing/layouts'
import { Ledger } from '#ui/ledger'
import { describeRows } from '../row-words'

type FaultTableProps = { caption: string; layout: SheetLayout; faults: readonly { rowNumbers: number[]; words: string }[] }

/** What is the matter, each thing said once, beside the rows it is said of. */
export function FaultTable({ caption, layout, faults }: FaultTableProps) {
  return (
    <Ledger
      caption={caption}
      rows={faults}
      rowKey={({ rowNumbers, words }) => `${rowNumbers[0]} ${words}`}
      columns={[
        {
          key: 'rows',
          head: layout === 'rows' ? say('Row') : say('Cell'),
          cell: ({ rowNumbers }) => describeRows(rowNumbers, layout),
          width: '8rem',
          phone: 'lead',
        },
        { key: 'words', head: say('What is the matter'), cell: ({ words }) => words, phone: 'wide' },
      ]}
    />
  )
}
