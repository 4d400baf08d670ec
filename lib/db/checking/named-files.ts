import 'server-only'
import type { KeptFolder } from '#lib/archive/part-name'
import { folderOfKind } from '#lib/archive/read-row'
import { archiveTables } from '#lib/archive/tables'

/** A column whose cells name files, and the folder those lie in. */
export type FileColumn = { table: string; column: string; folder: KeptFolder }

/** Every column of a collection that names files. */
export const fileColumns: readonly FileColumn[] = archiveTables.flatMap(({ name: table, columns }) =>
  Object.entries(columns).flatMap(([column, kind]) => {
    const folder = folderOfKind(kind)
    return folder === null ? [] : [{ table, column, folder }]
  }),
)

/** The names a column has, one a row: `name`, and the row's `id`. */
export const namedFilesSql = ({ table, column }: FileColumn): string =>
  `SELECT "${column}" AS "name", "id" AS "id" FROM "${table}" WHERE "${column}" IS NOT NULL`
