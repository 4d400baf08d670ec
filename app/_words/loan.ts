import { formatDate } from '#language/day'
import { say, sayings } from '#language/say'
import type { LoanClash, LoanRefusal } from '#lib/db/loan/loan-refusal'
import type { LentNamed, LoanLineNamed } from '#lib/db/loan/queries'
import type { Clash } from '#lib/loan/clash'
import type { LoanKind, LoanStanding } from '#lib/loan/loan'
import { counted, listed } from './amounts'
import { notionTitle } from './notion'
import { threadName } from './thread'

const lentNouns: Readonly<Record<string, string>> = sayings({
  chart: 'chart',
  batch: 'thread',
  cloth: 'cloth',
  notion: 'notions',
})

/** How a loan is headed, before the name of who has it. */
export const loanKindWords: Record<LoanKind, string> = sayings({ lend: 'Lent to', send: 'Sent to', borrow: 'Borrowed from' })

/** What a thing on a loan is called. */
export function lentName(thing: LentNamed): string {
  switch (thing.noun) {
    case 'chart':
    case 'project':
      return thing.title
    case 'batch':
      return [threadName(thing.thread), thing.lot && say('lot {lot}', { lot: thing.lot })].filter(Boolean).join(', ')
    case 'cloth':
      return [thing.label, thing.name].filter(Boolean).join(' · ')
    case 'notion':
      return notionTitle(thing)
    case 'text':
      return thing.text
  }
}

/** What kind of thing, and how many: "booklet", "2 skeins", "the work itself". */
export function lentNote({ thing, count }: Pick<LoanLineNamed, 'thing' | 'count'>): string {
  switch (thing.noun) {
    case 'chart':
      return thing.copies > 1
        ? say('{chartKind}, {count, plural, one {# copy} other {# copies}} of {copies}', {
            chartKind: thing.chartKind,
            count,
            copies: thing.copies,
          })
        : thing.chartKind
    case 'batch': {
      const whole = thing.wholePutUps > 0 ? counted(thing.wholePutUps, thing.thread.putUpWord) : ''
      return listed([whole, thing.hasPart ? say('a part one') : ''].filter(Boolean)) || say('thread')
    }
    case 'cloth':
      return say('cloth')
    case 'notion':
      return counted(count, 'piece')
    case 'project':
      return say('the work itself')
    case 'text':
      return count > 1 ? `× ${count}` : ''
  }
}

export const lentHref = (thing: LentNamed): string | undefined => {
  switch (thing.noun) {
    case 'chart':
      return `/charts/${thing.id}`
    case 'batch':
      return `/threads/${thing.thread.id}`
    case 'cloth':
      return `/cloth/${thing.id}`
    case 'notion':
      return `/notions/${thing.id}`
    case 'project':
      return `/projects/${thing.id}`
    case 'text':
      return undefined
  }
}

/** What went, in one line: "Hollin Staithe Alphabets and 2 more". */
export function lentSummary(lines: readonly Pick<LoanLineNamed, 'thing'>[]): string {
  const names = lines.map(({ thing }) => lentName(thing))
  return names.length <= 2 ? listed(names) : say('{names} and {names2} more', { names: names[0], names2: names.length - 1 })
}

/** "overdue by 3 days", "due today", "due in 5 days". */
export function standingWords(standing: LoanStanding): string {
  switch (standing.kind) {
    case 'overdue':
      return say('overdue by {daysOver, plural, one {# day} other {# days}}', { daysOver: standing.daysOver })
    case 'due-soon':
    case 'out':
      return standing.daysLeft === 0
        ? say('due today')
        : say('due in {daysLeft, plural, one {# day} other {# days}}', { daysLeft: standing.daysLeft })
    case 'no-day':
      return say('no day agreed')
    case 'closed':
      return say('back')
  }
}

/** "9 days, Mon 20 Apr 2026 to Tue 28 Apr 2026", or from when on, where nobody knows the last day. */
export const clashDays = ({ fromOn, untilOn, days }: Clash): string =>
  untilOn === null || days === null
    ? say('from {fromOn}, and no day is known for it to be back', { fromOn: formatDate(fromOn) })
    : days === 1
      ? say('1 day, {fromOn}', { fromOn: formatDate(fromOn) })
      : say('{days} days, {fromOn} to {untilOn}', { days, fromOn: formatDate(fromOn), untilOn: formatDate(untilOn) })

/** "Hanne Drewitt means to begin Alphabet four on Mon 20 Apr 2026: 9 days, …". */
export const clashWords = ({ title, ownerName, plannedOn, clash }: LoanClash): string =>
  plannedOn === null
    ? say('{ownerName} is stitching {title} from it: {clashDays}', { ownerName, title, clashDays: clashDays(clash) })
    : say('{ownerName} means to begin {title} on {plannedOn}: {clashDays}', {
        ownerName,
        title,
        plannedOn: formatDate(plannedOn),
        clashDays: clashDays(clash),
      })

/** Question 84: a file is for the one who bought it. */
export const fileWords = () => say('This is a file for one person; lend the bought paper copy or suggest they buy it.')

export function describeLoanRefusal(refusal: LoanRefusal): string {
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return say('Somebody moved or changed it meanwhile. Look at it again, then write it down.')
    case 'no-such-owner':
      return say('That owner is not there any more. Choose another.')
    case 'no-such-thing':
      return say('One of the things ({noun}) is not there any more. Begin again without it.', {
        noun: lentNouns[refusal.noun] ?? refusal.noun,
      })
    case 'not-a-person':
      return say('{label} is a place, not a person. Give the name of who has it.', { label: refusal.label })
    case 'nothing-in-it':
      return say('Nothing is on it yet. Say at least one thing.')
    case 'said-twice':
      return say('{name} stands on it twice. Once is enough.', { name: refusal.name || say('The work itself') })
    case 'due-before':
      return say('It would be due before it goes. Give a day from {fromOn} on.', { fromOn: formatDate(refusal.fromOn) })
    case 'no-due-day':
      return say('Say until when: so many weeks, or a day.')
    case 'is-a-file':
      return fileWords()
    case 'no-home':
      return say('{name} has no place of its own yet, so nothing could say that it is out. Say where it lives first.', {
        name: refusal.name,
      })
    case 'is-out':
      return say('{name} is out already: in {placeLabel}.', { name: refusal.name, placeLabel: refusal.placeLabel })
    case 'not-so-many':
      return refusal.atHome === 0
        ? say('None of {name} is at home.', { name: refusal.name })
        : say('Only {atHome} of {name} {atHome, plural, one {is} other {are}} at home.', {
            atHome: refusal.atHome,
            name: refusal.name,
          })
    case 'promised':
      return say('{name} is promised to a project. Lend what is free of it, or free the promise first.', { name: refusal.name })
    case 'kept':
      return say('{name} is kept for {title}.', { name: refusal.name, title: refusal.title })
    case 'in-use':
      return say('{name} is in use for {title}. Put it back first.', { name: refusal.name, title: refusal.title })
    case 'other-owner':
      return say('{name} belongs to somebody else. A loan is of one owner’s things.', { name: refusal.name })
    case 'own-thing':
      return say('{name} is the borrower’s own.', { name: refusal.name })
    case 'not-kept-anywhere':
      return say('Say where {name} is kept meanwhile.', { name: refusal.name })
    case 'clash':
      return say('It is wanted meanwhile. {clashes}. Tick “All the same” if it is to go nevertheless.', {
        clashes: refusal.clashes.slice(0, 3).map(clashWords).join('. '),
      })
    case 'no-such-loan':
      return say('That loan is not there any more.')
    case 'closed':
      return say('It is settled already.')
    case 'no-such-line':
      return say('One of those is back already. Look at it again.')
    case 'back-before':
      return say('It went on {fromOn}; it cannot be back before that.', { fromOn: formatDate(refusal.fromOn) })
    case 'where-is-work':
      return say('Nothing says where {name} was before. Say where it is now.', { name: refusal.name })
  }
}
