import 'server-only'
import { database } from '../client'

export type Worth = { version: number; priceMinor: number | null; photoFile: string | null; isOutOfPrint: boolean }

/** What is kept of a thing for an insurer; null when it is not there, or gone. */
export async function findWorth(noun: 'cloth' | 'notion' | 'chart', id: string): Promise<Worth | null> {
  const { prisma } = database()
  const where = { id, goneAt: null }
  const columns = { version: true, priceMinor: true } as const
  switch (noun) {
    case 'cloth': {
      const row = await prisma.clothPiece.findFirst({ where, select: { ...columns, photoFile: true } })
      return row && { ...row, isOutOfPrint: false }
    }
    case 'notion': {
      const row = await prisma.notion.findFirst({ where, select: { ...columns, photoFile: true } })
      return row && { ...row, isOutOfPrint: false }
    }
    case 'chart': {
      const row = await prisma.chart.findFirst({ where, select: { ...columns, coverFile: true, isOutOfPrint: true } })
      return row && { version: row.version, priceMinor: row.priceMinor, photoFile: row.coverFile, isOutOfPrint: row.isOutOfPrint }
    }
  }
}
