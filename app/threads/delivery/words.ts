import type { BarcodeRefused } from '#lib/db/thread/barcodes'

/** @param otherTitle  the thread the bars are on record for, if that is why */
export function describeBarcodeRefusal(refusal: BarcodeRefused, otherTitle: string | null): string {
  switch (refusal.kind) {
    case 'no-such-thread':
      return 'This thread was removed meanwhile.'
    case 'barcode-taken':
      return `These bars are on record for ${otherTitle ?? 'another thread'}. Forget them on its page first, if that was wrong.`
    case 'no-such-barcode':
      return 'These bars were forgotten already.'
  }
}
