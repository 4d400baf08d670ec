import { say } from '#language/say'
import type { Column } from '#ui/ledger'
import { RowTick } from './row-tick'

/** The first column of a list of which several can be chosen. */
export const tickColumn = <Row,>(list: string, idOf: (row: Row) => string, nameOf: (row: Row) => string): Column<Row> => ({
  key: 'choose',
  head: say('Choose'),
  headIsHidden: true,
  width: '2.5rem',
  phone: 'choose',
  isOffPaper: true,
  cell: (row) => <RowTick list={list} id={idOf(row)} name={nameOf(row)} />,
})
