import { say } from '#language/say'
import type { BarcodeRefused } from '#lib/db/thread/barcodes'

/** @param otherTitle  the thread the bars are on record for, if that is why */
export function describeBarcodeRefusal(refusal: BarcodeRefused, otherTitle: string | null): string {
  switch (refusal.kind) {
    case 'no-such-thread':
      return say('This thread was removed meanwhile.')
    case 'barcode-taken':
      return say('These bars are on record for {otherTitle}. Forget them on its page first, if that was wrong.', {
        otherTitle: otherTitle ?? say('another thread'),
      })
    case 'no-such-barcode':
      return say('These bars were forgotten already.')
  }
}
