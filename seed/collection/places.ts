import { textKey } from '#lib/quantity/text-key'
import type { SizePlan, TableRow } from './rows'

type PlaceIds = { drawers: string[]; boxes: string[]; shelves: string[] }

export function makePlaces(plan: SizePlan, ids: () => string): { rows: TableRow[]; places: PlaceIds } {
  const rows: TableRow[] = []
  const add = (label: string, kind: string, parent: TableRow | null): TableRow => {
    const id = ids()
    const path = `${parent ? parent.path : '/'}${id}/`
    const row = { id, label, labelKey: textKey(label), kind, parentId: parent ? (parent.id as string) : null, path }
    rows.push(row)
    return row
  }
  const room = add('Thread room', 'room', null)
  const library = add('Chart room', 'room', null)
  const cabinet = add('Cabinet T', 'cabinet', room)
  const drawers: string[] = []
  for (let at = 0; at < plan.drawers; at++) {
    drawers.push(add(`T${Math.floor(at / 5) + 1}.${(at % 5) + 1}`, 'drawer', cabinet).id as string)
  }
  const shelves = Array.from(
    { length: Math.ceil(plan.clothPieces / 40) },
    (_, at) => add(`C${at + 1}`, 'shelf', room).id as string,
  )
  const boxes: string[] = []
  let rack: TableRow = library
  for (let at = 0; at < plan.boxes; at++) {
    if (at % 20 === 0) rack = add(`R${at / 20 + 1}`, 'rack', library)
    boxes.push(add(`R${Math.floor(at / 20) + 1}-${(at % 20) + 1}`, 'box', rack).id as string)
  }
  for (let at = 1; at <= 12; at++) add(`K-${String(at).padStart(2, '0')}`, 'bag', room)
  return { rows, places: { drawers, boxes, shelves } }
}
