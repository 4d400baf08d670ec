import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { database } from '../client'

/**
 * Labels for so many parts of each of these pieces: the piece's own with a number, L-12-1, L-12-2, past those that another piece of the
 * owner carries. None for a piece without a label.
 */
export async function suggestLabels(wanted: readonly { pieceId: string; parts: number }[]): Promise<Map<string, string[]>> {
  const { prisma } = database()
  const rows = await prisma.clothPiece.findMany({
    where: { id: { in: wanted.map(({ pieceId }) => pieceId) } },
    select: { id: true, label: true, ownerId: true },
  })
  const labelled = rows.flatMap(({ label, ...row }) => (label === null ? [] : [{ ...row, label }]))
  if (labelled.length === 0) return new Map()
  const taken = await prisma.clothPiece.findMany({
    where: { OR: labelled.map(({ ownerId, label }) => ({ ownerId, labelKey: { startsWith: textKey(label) } })) },
    select: { ownerId: true, labelKey: true },
  })
  const keys = new Set(taken.map(({ ownerId, labelKey }) => `${ownerId} ${labelKey}`))
  return new Map(
    labelled.map(({ id, label, ownerId }) => {
      const parts = wanted.find(({ pieceId }) => pieceId === id)?.parts ?? 0
      const labels: string[] = []
      for (let number = 1; labels.length < parts; number++) {
        const next = `${label}-${number}`
        if (!keys.has(`${ownerId} ${textKey(next)}`)) labels.push(next)
      }
      return [id, labels]
    }),
  )
}
