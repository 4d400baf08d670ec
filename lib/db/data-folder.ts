import 'server-only'
import path from 'node:path'

/** The one folder everything a person owns lives in: database and uploads. LARDER_DATA, or ./data. */
export const dataFolder = (): string => path.resolve(process.env.LARDER_DATA || 'data')

/** DATABASE_URL, or the SQLite file in the data folder. */
export const databaseUrl = (): string => process.env.DATABASE_URL || `file:${path.join(dataFolder(), 'larder.db')}`

export const isPostgresqlUrl = (url: string): boolean => /^postgres(ql)?:/.test(url)
