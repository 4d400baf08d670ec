import { formatDate } from '#language/day'
import type { LoanClash, LoanRefusal } from '#lib/db/loan/loan-refusal'
import type { LentNamed, LoanLineNamed } from '#lib/db/loan/queries'
import type { Clash } from '#lib/loan/clash'
import type { LoanKind, LoanStanding } from '#lib/loan/loan'
import { counted, listed } from './amounts'
import { notionTitle } from './notion'
import { threadName } from './thread'

/** How a loan is headed, before the name of who has it. */
export const loanKindWords: Record<LoanKind, string> = { lend: 'Lent to', send: 'Sent to', borrow: 'Borrowed from' }

/** What a thing on a loan is called. */
export function lentName(thing: LentNamed): string {
  switch (thing.noun) {
    case 'chart':
    case 'project':
      return thing.title
    case 'batch':
      return [threadName(thing.thread), thing.lot && `lot ${thing.lot}`].filter(Boolean).join(', ')
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
      return thing.copies > 1 ? `${thing.chartKind}, ${counted(count, 'copy')} of ${thing.copies}` : thing.chartKind
    case 'batch': {
      const whole = thing.wholePutUps > 0 ? counted(thing.wholePutUps, thing.thread.putUpWord) : ''
      return listed([whole, thing.hasPart ? 'a part one' : ''].filter(Boolean)) || 'thread'
    }
    case 'cloth':
      return 'cloth'
    case 'notion':
      return counted(count, 'piece')
    case 'project':
      return 'the work itself'
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
  return names.length <= 2 ? listed(names) : `${names[0]} and ${names.length - 1} more`
}

/** "overdue by 3 days", "due today", "due in 5 days". */
export function standingWords(standing: LoanStanding): string {
  switch (standing.kind) {
    case 'overdue':
      return `overdue by ${counted(standing.daysOver, 'day')}`
    case 'due-soon':
    case 'out':
      return standing.daysLeft === 0 ? 'due today' : `due in ${counted(standing.daysLeft, 'day')}`
    case 'no-day':
      return 'no day agreed'
    case 'closed':
      return 'back'
  }
}

/** "9 days, Mon 20 Apr 2026 to Tue 28 Apr 2026", or from when on, where nobody knows the last day. */
export const clashDays = ({ fromOn, untilOn, days }: Clash): string =>
  untilOn === null || days === null
    ? `from ${formatDate(fromOn)}, and no day is known for it to be back`
    : days === 1
      ? `1 day, ${formatDate(fromOn)}`
      : `${days} days, ${formatDate(fromOn)} to ${formatDate(untilOn)}`

/** "Hanne Drewitt means to begin Alphabet four on Mon 20 Apr 2026: 9 days, …". */
export const clashWords = ({ title, ownerName, plannedOn, clash }: LoanClash): string =>
  plannedOn === null
    ? `${ownerName} is stitching ${title} from it: ${clashDays(clash)}`
    : `${ownerName} means to begin ${title} on ${formatDate(plannedOn)}: ${clashDays(clash)}`

/** Question 84: a file is for the one who bought it. */
export const fileWords = 'This is a file for one person; lend the bought paper copy or suggest they buy it.'

export function describeLoanRefusal(refusal: LoanRefusal): string {
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return 'Somebody moved or changed it meanwhile. Look at it again, then write it down.'
    case 'no-such-owner':
      return 'That owner is not there any more. Choose another.'
    case 'no-such-thing':
      return `One of the things (${refusal.noun}) is not there any more. Begin again without it.`
    case 'not-a-person':
      return `${refusal.label} is a place, not a person. Give the name of who has it.`
    case 'nothing-in-it':
      return 'Nothing is on it yet. Say at least one thing.'
    case 'said-twice':
      return `${refusal.name || 'The work itself'} stands on it twice. Once is enough.`
    case 'due-before':
      return `It would be due before it goes. Give a day from ${formatDate(refusal.fromOn)} on.`
    case 'no-due-day':
      return 'Say until when: so many weeks, or a day.'
    case 'is-a-file':
      return fileWords
    case 'no-home':
      return `${refusal.name} has no place of its own yet, so nothing could say that it is out. Say where it lives first.`
    case 'is-out':
      return `${refusal.name} is out already: in ${refusal.placeLabel}.`
    case 'not-so-many':
      return refusal.atHome === 0
        ? `None of ${refusal.name} is at home.`
        : `Only ${refusal.atHome} of ${refusal.name} ${refusal.atHome === 1 ? 'is' : 'are'} at home.`
    case 'promised':
      return `${refusal.name} is promised to a project. Lend what is free of it, or free the promise first.`
    case 'kept':
      return `${refusal.name} is kept for ${refusal.title}.`
    case 'in-use':
      return `${refusal.name} is in use for ${refusal.title}. Put it back first.`
    case 'other-owner':
      return `${refusal.name} belongs to somebody else. A loan is of one owner’s things.`
    case 'own-thing':
      return `${refusal.name} is the borrower’s own.`
    case 'not-kept-anywhere':
      return `Say where ${refusal.name} is kept meanwhile.`
    case 'clash':
      return `It is wanted meanwhile. ${refusal.clashes.slice(0, 3).map(clashWords).join('. ')}. Tick “All the same” if it is to go nevertheless.`
    case 'no-such-loan':
      return 'That loan is not there any more.'
    case 'closed':
      return 'It is settled already.'
    case 'no-such-line':
      return 'One of those is back already. Look at it again.'
    case 'back-before':
      return `It went on ${formatDate(refusal.fromOn)}; it cannot be back before that.`
    case 'where-is-work':
      return `Nothing says where ${refusal.name} was before. Say where it is now.`
  }
}
