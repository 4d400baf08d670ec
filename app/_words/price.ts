import { formatPrice } from '#lib/quantity/money'

/** A price after the sign the settings name; nothing is converted. */
export const priceWords = (minor: number, currency: string): string =>
  [currency, formatPrice(Math.round(minor), null)].filter(Boolean).join(' ')
