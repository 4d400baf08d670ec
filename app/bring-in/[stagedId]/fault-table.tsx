import { Ledger } from '#ui/ledger'
import { describeRows } from '../words'

type FaultTableProps = { caption: string; faults: readonly { rowNumbers: number[]; words: string }[] }

/** What is the matter, each thing said once, beside the rows it is said of. */
export function FaultTable({ caption, faults }: FaultTableProps) {
  return (
    <Ledger
      caption={caption}
      rows={faults}
      rowKey={({ rowNumbers, words }) => `${rowNumbers[0]} ${words}`}
      columns={[
        { key: 'rows', head: 'Row', cell: ({ rowNumbers }) => describeRows(rowNumbers), width: '8rem', phone: 'lead' },
        { key: 'words', head: 'What is the matter', cell: ({ words }) => words, phone: 'wide' },
      ]}
    />
  )
}
