import { mostColumns, mostRows } from '#lib/printing/label-sheets'
import type { OwnField, StockRefusal } from './labels-query'

export const ownFieldWords: Record<OwnField, string> = {
  columns: 'Labels across',
  rows: 'Labels down',
  width: 'Label width, mm',
  height: 'Label height, mm',
  left: 'White at left, mm',
  top: 'White at head, mm',
  gapX: 'Gap across, mm',
  gapY: 'Gap down, mm',
}

export function describeStockRefusal(refusal: StockRefusal): string {
  switch (refusal.kind) {
    case 'no-such-stock':
      return 'There is no such sheet or tape. Choose one from the list, or type its sizes.'
    case 'not-read':
      return `${ownFieldWords[refusal.field].replace(', mm', '')}: type ${
        refusal.field === 'columns'
          ? `a whole number from 1 to ${mostColumns}`
          : refusal.field === 'rows'
            ? `a whole number from 1 to ${mostRows}`
            : 'a length, such as 70, 38.1 mm or 2 5/8 in'
      }.`
    case 'label-too-small':
      return 'A label has to be at least 10 × 6 mm to be written on.'
    case 'off-the-paper':
      return `The labels run ${refusal.byMm.toFixed(1)} mm over the ${refusal.side === 'right' ? 'right edge' : 'foot'} of the paper. Look at their sizes, gaps and margins again.`
    case 'past-the-last':
      return `This sheet has ${refusal.last} labels, so there is none to start at beyond that.`
  }
}
