import { longestFigureText, parseNumber } from './number'

const currencyOfSign: Record<string, string> = { '£': 'GBP', '€': 'EUR', $: 'USD', '¥': 'JPY' }
const signOfCurrency: Record<string, string> = { GBP: '£', EUR: '€', USD: '$', JPY: '¥' }

/** Currencies without a minor unit, from memory of ISO 4217; all others are taken to have hundredths. */
const wholeCurrencies = new Set(['CLP', 'ISK', 'JPY', 'KRW', 'PYG', 'VND', 'XAF', 'XOF'])
const minorDigits = (currency: string | null): number => (currency !== null && wholeCurrencies.has(currency) ? 0 : 2)

/**
 * Read a price: `3.60`, `£3.60`, `3,60 €`, `EUR 1.240,00`, `$1,240`. A lone mark with three digits after it parts thousands here, as a
 * price has no thousandths. `$` is taken as USD.
 *
 * @returns whole minor units (pence, cents) and the currency's three letters, null when none is written; null altogether when it is
 *   not a price, is negative, or is finer than the currency's smallest coin.
 */
export function parsePrice(text: string): { minor: number; currency: string | null } | null {
  if (text.length > longestFigureText) return null
  const parts = /^([£€$¥]|[A-Z]{3})?\s*(\d.*?)\s*([£€$¥]|[A-Z]{3})?$/u.exec(text.trim())
  if (!parts || (parts[1] && parts[3])) return null
  const written = parts[1] ?? parts[3] ?? null
  const currency = written === null ? null : (currencyOfSign[written] ?? written)
  const figures = parts[2] as string
  const value = parseNumber(/^[1-9]\d{0,2}\.\d{3}$/.test(figures) ? figures.replace('.', '') : figures)
  if (value === null) return null
  const scaled = value * 10 ** minorDigits(currency)
  const minor = Math.round(scaled)
  return Math.abs(scaled - minor) < 1e-4 && Number.isSafeInteger(minor) ? { minor, currency } : null
}

/** @returns the price with thousands marked: `£9,703.00`, `CHF 12.50`, `3.60` when the currency is not known. */
export function formatPrice(minor: number, currency: string | null): string {
  const digits = minorDigits(currency)
  const padded = String(Math.abs(minor)).padStart(digits + 1, '0')
  const whole = padded.slice(0, padded.length - digits).replace(/\B(?=(\d{3})+$)/g, ',')
  const figures = digits === 0 ? whole : `${whole}.${padded.slice(-digits)}`
  const sign = currency === null ? '' : (signOfCurrency[currency] ?? `${currency} `)
  return `${minor < 0 ? '-' : ''}${sign}${figures}`
}
