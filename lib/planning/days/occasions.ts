import { textKey } from '#lib/quantity/text-key'
import { dayOfRule, daysBetweenOf, nextDay, type OccasionRule, parseRule } from './occasion-rule'

/** Countries whose customary days are known here, by ISO 3166-1. Another keeps its days as own occasions. */
export const countryCodes = [
  ...(['GB', 'IE', 'US', 'CA', 'AU', 'NZ', 'DE', 'AT', 'CH', 'FR'] as const),
  ...(['BE', 'NL', 'DK', 'NO', 'SE', 'FI', 'IT', 'ES', 'PT', 'PL'] as const),
] as const
export type Country = (typeof countryCodes)[number]

/** When a feast falls in a country, or null where it is not kept there. */
type FeastRule = string | ((country: Country) => string | null)
type Feast = { key: string; name: string; rule: FeastRule }

const only =
  (rules: Partial<Record<Country, string | null>>, others: string | null = null) =>
  (country: Country): string | null =>
    rules[country] === undefined ? others : rules[country]

const [secondOfMay, firstOfMay] = ['second sunday of 5', 'first sunday of 5']
/**
 * The fourth Sunday of Lent in Britain and Ireland; in France the last Sunday of May, which gives way to Whit Sunday (code de l'action
 * sociale et des familles, art. D215-1; see `feastDay`).
 */
const mothersDay = only(
  {
    ...{ GB: 'easter-21', IE: 'easter-21', NO: 'second sunday of 2', ES: firstOfMay, PT: firstOfMay, PL: '05-26' },
    ...{ FR: 'last sunday of 5', SE: 'last sunday of 5' },
  },
  secondOfMay,
)
/** In Germany it is Ascension Day. */
const fathersDay = only(
  {
    ...{ AU: 'first sunday of 9', NZ: 'first sunday of 9', DE: 'easter+39', AT: 'second sunday of 6', BE: 'second sunday of 6' },
    ...{ CH: 'first sunday of 6', DK: '06-05', IT: '03-19', ES: '03-19', PT: '03-19', PL: '06-23' },
    ...{ NO: 'second sunday of 11', SE: 'second sunday of 11', FI: 'second sunday of 11' },
  },
  'third sunday of 6',
)
/** Seasons by whole months, as almanacs and weather stations count them; the other half of the world has the other half of the year. */
const seasonFrom = (north: string, south: string) => (country: Country) => (country === 'AU' || country === 'NZ' ? south : north)

/**
 * Feasts and seasons in the order of the year. Movable ones hang on Easter or on a weekday. Harvest has no one day: the first Sunday of
 * October is widely kept (common practice, no published source), and where it is another, an own occasion says so.
 */
const feasts: readonly Feast[] = [
  { key: 'new-year', name: 'New Year', rule: '01-01' },
  { key: 'epiphany', name: 'Epiphany', rule: '01-06' },
  { key: 'valentine', name: 'Valentine’s Day', rule: '02-14' },
  { key: 'shrove-tuesday', name: 'Shrove Tuesday', rule: 'easter-47' },
  { key: 'spring', name: 'the first of spring', rule: seasonFrom('03-01', '09-01') },
  { key: 'st-patrick', name: 'St Patrick’s Day', rule: only({ GB: '03-17', IE: '03-17', US: '03-17', CA: '03-17' }) },
  { key: 'mothers-day', name: 'Mother’s Day', rule: mothersDay },
  { key: 'good-friday', name: 'Good Friday', rule: 'easter-2' },
  { key: 'easter', name: 'Easter', rule: 'easter' },
  { key: 'may-day', name: 'May Day', rule: '05-01' },
  { key: 'ascension', name: 'Ascension Day', rule: 'easter+39' },
  { key: 'whit-sunday', name: 'Whit Sunday', rule: 'easter+49' },
  { key: 'summer', name: 'the first of summer', rule: seasonFrom('06-01', '12-01') },
  { key: 'fathers-day', name: 'Father’s Day', rule: fathersDay },
  {
    key: 'midsummer',
    name: 'Midsummer',
    // In Sweden and Finland the Saturday from 20 to 26 June, which is the one nearest the 23rd.
    rule: only({ SE: 'saturday nearest 06-23', FI: 'saturday nearest 06-23', AU: null, NZ: null }, '06-24'),
  },
  { key: 'canada-day', name: 'Canada Day', rule: only({ CA: '07-01' }) },
  { key: 'independence-day', name: 'Independence Day', rule: only({ US: '07-04', FI: '12-06', PL: '11-11' }) },
  { key: 'autumn', name: 'the first of autumn', rule: seasonFrom('09-01', '03-01') },
  {
    key: 'harvest',
    name: 'Harvest',
    rule: (country) => (['US', 'CA', 'AU', 'NZ'].includes(country) ? null : 'first sunday of 10'),
  },
  { key: 'thanksgiving', name: 'Thanksgiving', rule: only({ US: 'fourth thursday of 11', CA: 'second monday of 10' }) },
  { key: 'halloween', name: 'Halloween', rule: '10-31' },
  {
    key: 'all-saints',
    name: 'All Saints',
    rule: only({ SE: 'saturday nearest 11-03', FI: 'saturday nearest 11-03', NO: 'first sunday of 11' }, '11-01'),
  },
  { key: 'martinmas', name: 'Martinmas', rule: '11-11' },
  { key: 'advent', name: 'Advent Sunday', rule: 'sunday nearest 11-30' },
  { key: 'winter', name: 'the first of winter', rule: seasonFrom('12-01', '06-01') },
  { key: 'st-nicholas', name: 'St Nicholas', rule: only({ NL: '12-05' }, '12-06') },
  { key: 'st-lucy', name: 'St Lucy', rule: '12-13' },
  { key: 'christmas-eve', name: 'Christmas Eve', rule: '12-24' },
  { key: 'christmas', name: 'Christmas', rule: '12-25' },
  { key: 'new-years-eve', name: 'New Year’s Eve', rule: '12-31' },
]

const feastByKey = new Map(feasts.map((feast) => [feast.key, feast]))

const ruleIn = (feast: Feast, country: Country): OccasionRule | null => {
  const text = typeof feast.rule === 'string' ? feast.rule : feast.rule(country)
  return text === null ? null : parseRule(text)
}

/** The day of a known feast in a year, yyyy-mm-dd; null where the country does not keep it. @throws {RangeError} for no such feast */
export function feastDay(key: string, country: Country, year: number): string | null {
  const feast = feastByKey.get(key)
  if (!feast) throw new RangeError(`feastDay: ${JSON.stringify(key)}`)
  const rule = ruleIn(feast, country)
  if (rule === null) return null
  const day = dayOfRule(rule, year)
  const whit = key === 'mothers-day' && country === 'FR' ? dayOfRule({ kind: 'easter', days: 49 }, year) : null
  return whit !== null && whit === day ? dayOfRule({ kind: 'weekday', nth: 1, weekday: 7, month: 6 }, year) : day
}

/** A day somebody keeps besides those: its id, and its rule as it is stored. */
export type OwnOccasion = { id: string; name: string; rule: string }

/** Which days are known: those of a country, and her own. */
export type OccasionWorld = { country: Country; own: readonly OwnOccasion[] }

/** One occasion to choose: `key` is what a project keeps of it. */
export type Occasion = { key: string; name: string; isOwn: boolean }

/** Every occasion there is to choose from: her own first, then those the country keeps, in the order of the year. */
export const listOccasions = ({ country, own }: OccasionWorld): Occasion[] => [
  ...own.map(({ id, name }) => ({ key: id, name, isOwn: true })),
  ...feasts.filter((feast) => ruleIn(feast, country) !== null).map(({ key, name }) => ({ key, name, isOwn: false })),
]

/** An occasion by what a project keeps of it; null for one that is gone or not kept in the country. */
export function findOccasion(
  key: string,
  { country, own }: OccasionWorld,
): (Occasion & { dayInYear: (year: number) => string | null }) | null {
  const mine = own.find(({ id }) => id === key)
  if (mine) {
    const rule = parseRule(mine.rule)
    return rule && { key, name: mine.name, isOwn: true, dayInYear: (year) => dayOfRule(rule, year) }
  }
  const feast = feastByKey.get(key)
  if (!feast || ruleIn(feast, country) === null) return null
  return { key, name: feast.name, isOwn: false, dayInYear: (year) => feastDay(key, country, year) }
}

export type OccasionDay = { key: string; name: string; on: string }

/** The next day of an occasion from a day on, that day counted; null where it comes no more, or is not known. */
export function nextOccasion(key: string, from: string, world: OccasionWorld): OccasionDay | null {
  const occasion = findOccasion(key, world)
  const on = occasion && nextDay(occasion.dayInYear, from)
  return on === null ? null : { key, name: occasion?.name ?? '', on }
}

/** Every day of these occasions between two days, both counted, the earliest first. */
export function occasionDays(
  occasions: readonly Occasion[],
  { fromOn, toOn }: { fromOn: string; toOn: string },
  world: OccasionWorld,
): OccasionDay[] {
  return occasions
    .flatMap(({ key, name }) => {
      const found = findOccasion(key, world)
      return found ? daysBetweenOf(found.dayInYear, fromOn, toOn).map((on) => ({ key, name, on })) : []
    })
    .sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
}

/** Words a season's theme may hold, and the feast or season it is wanted by; of several the first counts. */
const themeWords: readonly (readonly [RegExp, string])[] = [
  [/\bchristmas eve\b/, 'christmas-eve'],
  [/\b(?:christmas|xmas|noel|yule|yuletide|nativity)\b/, 'christmas'],
  [/\badvent\b/, 'advent'],
  [/\bhalloween\b|\ball hallows\b/, 'halloween'],
  [/\bthanksgiving\b/, 'thanksgiving'],
  [/\bharvest\b/, 'harvest'],
  [/\bvalentine/, 'valentine'],
  [/\bmothers? day\b|\bmother'?s day\b|\bmothering\b/, 'mothers-day'],
  [/\bfathers? day\b|\bfather'?s day\b/, 'fathers-day'],
  [/\bgood friday\b/, 'good-friday'],
  [/\beaster\b/, 'easter'],
  [/\bwhit(?:sun)?\b|\bpentecost\b/, 'whit-sunday'],
  [/\bmidsummer\b/, 'midsummer'],
  [/\bepiphany\b|\btwelfth night\b/, 'epiphany'],
  [/\bnicholas\b/, 'st-nicholas'],
  [/\blucy\b|\blucia\b/, 'st-lucy'],
  [/\bpatrick\b/, 'st-patrick'],
  [/\bmartinmas\b|\bmartin\b/, 'martinmas'],
  [/\bnew year'?s eve\b/, 'new-years-eve'],
  [/\bnew year\b/, 'new-year'],
  [/\bmay day\b/, 'may-day'],
  [/\bspring\b/, 'spring'],
  [/\bsummer\b/, 'summer'],
  [/\bautumn\b|\bfall\b/, 'autumn'],
  [/\bwinter\b/, 'winter'],
]

/**
 * The occasion that a season's theme of a design is wanted by: her own of that name, else the feast or season whose name is in it.
 *
 * @param theme  the theme's name as it stands on the record: "Christmas", "winter"
 * @returns null for a theme that says no day
 */
export function occasionOfTheme(theme: string, world: OccasionWorld): string | null {
  const key = textKey(theme).replace(/[’‘]/g, "'")
  const own = world.own.find(({ name }) => textKey(name) === textKey(theme))
  if (own) return own.id
  const feast = themeWords.find(([words]) => words.test(key))?.[1] ?? null
  return feast !== null && findOccasion(feast, world) ? feast : null
}

/** The next day a season's theme is wanted by, from a day on; null for a theme that says none. */
export function nextOfTheme(theme: string, from: string, world: OccasionWorld): OccasionDay | null {
  const key = occasionOfTheme(theme, world)
  return key === null ? null : nextOccasion(key, from, world)
}
