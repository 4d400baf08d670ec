import { withDecimalMark } from '#language/figures'
import { say, sayings } from '#language/say'
import { mostColumns, mostRows } from '#lib/printing/label-sheets'
import type { OwnField, StockRefusal } from './labels-query'

export const ownFieldWords: Record<OwnField, string> = sayings({
  columns: 'Labels across',
  rows: 'Labels down',
  width: 'Label width, mm',
  height: 'Label height, mm',
  left: 'White at left, mm',
  top: 'White at head, mm',
  gapX: 'Gap across, mm',
  gapY: 'Gap down, mm',
})

export function describeStockRefusal(refusal: StockRefusal): string {
  switch (refusal.kind) {
    case 'no-such-stock':
      return say('There is no such sheet or tape. Choose one from the list, or type its sizes.')
    case 'not-read':
      return say('{replace}: type {rest}.', {
        replace: ownFieldWords[refusal.field].replace(', mm', ''),
        rest:
          refusal.field === 'columns'
            ? say('a whole number from 1 to {mostColumns}', { mostColumns })
            : refusal.field === 'rows'
              ? say('a whole number from 1 to {mostRows}', { mostRows })
              : say('a length, such as 70, 38.1 mm or 2 5/8 in'),
      })
    case 'label-too-small':
      return say('A label has to be at least 10 × 6 mm to be written on.')
    case 'off-the-paper':
      return say(
        'The labels run {byMm} mm over the {isRight, select, yes {right edge} other {foot}} of the paper. Look at their sizes, gaps and margins again.',
        { byMm: withDecimalMark(refusal.byMm.toFixed(1)), isRight: refusal.side === 'right' },
      )
    case 'past-the-last':
      return say('This sheet has {last} labels, so there is none to start at beyond that.', { last: refusal.last })
  }
}
