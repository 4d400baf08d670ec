import { say } from '#language/say'
import type { YearOfWork } from '#lib/db/finish/read-finishes'

/** A year by the month: the first cell is yyyy-mm, the others are figures. */
export const monthCells = ({ sum }: Pick<YearOfWork, 'sum'>) => ({
  heads: [say('Month'), say('Stitches in the log'), say('Pieces finished'), say('Their stitches'), say('Their hours')],
  rows: sum.months.map(({ month, logged, pieces, stitches, hoursTenths }): (string | number)[] => [
    ...[month, logged, pieces, stitches, hoursTenths / 10],
  ]),
})
