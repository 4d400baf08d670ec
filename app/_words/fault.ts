import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import { type Amount, type Concerned, type Fault, type FaultKind, type StockNoun, weightOf } from '#lib/checking/fault'
import { counted, listed } from './amounts'
import { bytesWords } from './backup'
import { givenName } from './given'
import { hoursWords } from './hours'

/** What a group of faults is headed by. */
export const faultTitles: Record<FaultKind, string> = sayings({
  'stock-differs': 'Record and journal differ',
  'below-nothing': 'Less than nothing',
  'gone-holds': 'Gone, and holding thread',
  'in-gone-place': 'In a place that was taken away',
  'out-differs': 'Out, or home, by half the record only',
  'place-in-circle': 'Places inside one another',
  'place-in-gone-place': 'Places inside one that was taken away',
  'place-path-differs': 'Places with a wrong way to them',
  'bag-gone': 'Kitted in a place that was taken away',
  'promise-closed': 'Promised to a project that is over',
  'promise-beyond': 'Promised, and not there for all',
  'lent-elsewhere': 'On a loan, and not there',
  'lent-twice': 'Lent twice',
  'lender-gone': 'Lent to somebody who was taken away',
  'unlent-with-somebody': 'With somebody, and on no loan',
  'looked-for-here': 'Looked for, and not out',
  'looked-for-twice': 'Looked for twice',
  'put-back-twice': 'On two lists to be put back',
  'cut-twice': 'Cut twice for one bag',
  'cut-beyond': 'Cut for a bag that is none',
  'work-below-nothing': 'Work of less than nothing',
  'work-no-day': 'Logged on no day',
  'occasion-gone': 'For a day that is not kept any more',
  'label-of-nothing': 'Labels of what is gone',
  'told-apart-gone': 'Pairs told apart that are none any more',
  'revision-behind': 'The count of changes is behind',
  'broken-links': 'Rows that name what is not there',
  'rule-broken': 'Rows that hold what they must not',
  'database-damaged': 'The database does not read whole',
  'file-missing': 'Photographs and files that are not there',
  'thumb-missing': 'Photographs without their small one',
  'file-unnamed': 'Files that nothing names',
  'half-written': 'Files half written',
  'staged-old': 'Uploads past their day',
  'snapshot-differs': 'Needs kept for the next start',
  'answers-differ': 'Answers in memory',
})

const pieces: Record<Exclude<StockNoun, 'batch'>, string> = { cloth: 'piece', chart: 'copy', notion: 'piece' }

/** "3 put-ups and 12 m of strand". */
export function amountWords(noun: StockNoun, { whole, partStrandTenths }: Amount): string {
  if (noun !== 'batch') return counted(whole, pieces[noun])
  const part = say('{partStrand} m of strand', {
    partStrand: numberText(partStrandTenths / 10_000, { maximumFractionDigits: 2 }),
  })
  return partStrandTenths === 0
    ? counted(whole, 'put-up')
    : say('{whole, plural, one {# put-up} other {# put-ups}} and {part}', { whole, part })
}

const whyBeyond = sayings({
  gone: 'It is gone',
  'other-owner': 'It belongs to another owner',
  'not-enough': 'It holds less than was promised of it',
})

/** What is wrong, in a sentence. */
export function describeFault(fault: Fault): string {
  switch (fault.kind) {
    case 'stock-differs':
      return say('The record says {isGone}; the journal adds up to {amount}.', {
        isGone: fault.isGone ? say('it is gone') : amountWords(fault.noun, fault.held),
        amount: amountWords(fault.noun, fault.journal),
      })
    case 'below-nothing':
      return say('It holds {amount}.', { amount: amountWords(fault.noun, fault.held) })
    case 'gone-holds':
      return say('It is marked as gone and holds {amount}.', { amount: amountWords('batch', fault.held) })
    case 'in-gone-place':
      return fault.home !== null && fault.current !== null
        ? say('It lives in {home} and lies in {current}, {homeCase, select, yes {which was} other {which were}} taken away.', {
            home: fault.home,
            current: fault.current,
            homeCase: fault.home === fault.current,
          })
        : fault.home !== null
          ? say('It lives in {home}, which was taken away.', { home: fault.home })
          : say('It lies in {current}, which was taken away.', { current: fault.current })
    case 'out-differs':
      return fault.isAway
        ? say('It is away from home, and nothing says since when.')
        : say('It is not away from home, and counts as out.')
    case 'place-in-circle':
      return say('{labels} stand one in another, round in a circle: none of them stands anywhere.', {
        labels: listed(fault.labels),
      })
    case 'place-in-gone-place':
      return say('It stands in {inside}, which was taken away.', { inside: fault.inside })
    case 'place-path-differs':
      return say('What is looked for in the places around it does not find what is in it.')
    case 'bag-gone':
      return say('It is kitted in {label}, which was taken away.', { label: fault.label })
    case 'promise-closed':
      return say('It is promised to {project}, which {isGone}.', {
        project: fault.project,
        isGone: fault.isGone ? say('was removed') : say('is {status}', { status: givenName(fault.status) }),
      })
    case 'promise-beyond':
      return say('{whyBeyond}: {projects} {projects2, plural, one {does} other {do}} not get what was promised.', {
        whyBeyond: whyBeyond[fault.why],
        projects: listed(fault.projects),
        projects2: fault.projects.length,
      })
    case 'lent-elsewhere':
      return fault.why === 'gone'
        ? say('The loan with {withWhom} waits for it, and it is gone.', { withWhom: fault.withWhom })
        : fault.why === 'at-home'
          ? say('The loan from {withWhom} waits for it to go back, and it counts as the house’s own, at home.', {
              withWhom: fault.withWhom,
            })
          : say('The loan to {withWhom} waits for it, and it is not with them.', { withWhom: fault.withWhom })
    case 'lent-twice':
      return say('It is on loans with {withWhom} at once.', { withWhom: listed(fault.withWhom) })
    case 'lender-gone':
      return say('A loan that is open is with {withWhom}, who was taken away.', { withWhom: fault.withWhom })
    case 'unlent-with-somebody':
      return say('It is with {withWhom}, and no loan says so.', { withWhom: fault.withWhom })
    case 'looked-for-here':
      return fault.isGone ? say('It is looked for, and gone.') : say('It is looked for, and not out.')
    case 'looked-for-twice':
      return say('It is looked for {askedIds} times at once.', { askedIds: fault.askedIds.length + 1 })
    case 'put-back-twice':
      return say('It waits on {walks}.', { walks: listed(fault.walks) })
    case 'cut-twice':
      return say('Bag {bag} has two cuts of {thread}.', { bag: fault.bag, thread: fault.thread })
    case 'cut-beyond':
      return say('{thread} was cut for bag {bag}, and there are {quantity, plural, one {# bag} other {# bags}}.', {
        thread: fault.thread,
        bag: fault.bag,
        quantity: fault.quantity,
      })
    case 'work-below-nothing':
      return say('Its totals are {stitchesDone, plural, one {# stitch} other {# stitches}} and {hours}.', {
        stitchesDone: fault.stitchesDone,
        hours: hoursWords(fault.hoursTenths),
      })
    case 'work-no-day':
      return say('A line of its log is of {day}, which no calendar has.', { day: fault.day || say('no day') })
    case 'occasion-gone':
      return say('The day it is for is not kept any more.')
    case 'label-of-nothing':
      return say('The label “{text}” is kept as printed, and what it was of is not there.', { text: fault.text })
    case 'told-apart-gone':
      return say('One of the two is not there any more.')
    case 'revision-behind':
      return say(
        'It stands at {revision, number}, and a change of {latest, number} is noted: what others change may not be noticed.',
        { revision: fault.revision, latest: fault.latest },
      )
    case 'broken-links':
      return say('{count, plural, one {# row} other {# rows}} name{rest} a row of {names} that is not there (column {column}).', {
        count: fault.count,
        rest: fault.count === 1 ? 's' : '',
        names: fault.names,
        column: fault.column,
      })
    case 'rule-broken':
      return say('The database says: {says}.', { says: fault.says })
    case 'database-damaged':
      return say('The database says: {says}. Keep the backups there are, stop Chart Larder and restore the newest good one.', {
        says: fault.says,
      })
    case 'file-missing':
      return say('It names {file}, which is not in the data folder.', { file: fault.file })
    case 'thumb-missing':
      return say('Beside {file} the small one for lists is not there.', { file: fault.file })
    case 'file-unnamed':
      return say('{bytes}; no chart, piece, notion, project or log names it.', { bytes: bytesWords(fault.bytes) })
    case 'half-written':
      return say('{bytes}; its writing broke off over a day ago.', { bytes: bytesWords(fault.bytes) })
    case 'staged-old':
      return say('{bytes}; it was kept for a day to be looked through.', { bytes: bytesWords(fault.bytes) })
    case 'snapshot-differs':
      return say(
        'What is kept for the next start differs from the database in {lists, plural, one {# design} other {# designs}} of {of, number} looked at.',
        { lists: fault.lists, of: fault.of },
      )
    case 'answers-differ':
      return say(
        'What is answered differs from the database for {designs, plural, one {# design} other {# designs}} of {of, number} looked at.',
        { designs: fault.designs, of: fault.of },
      )
  }
}

/** What a person can do where no repair is offered. */
export function ownWayOut(kind: FaultKind): string | null {
  switch (kind) {
    case 'stock-differs':
      return say('Count it, and correct the count there.')
    case 'lender-gone':
      return say('Put the person back among the places, or close the loan.')
    case 'unlent-with-somebody':
      return say('Lend it to them, or put it home.')
    case 'put-back-twice':
      return say('End one of the lists.')
    case 'cut-twice':
    case 'cut-beyond':
      return say('The record of cuts is what was done: look at the bags, and note there what is so.')
    case 'work-below-nothing':
      return say('Type the total anew on the project.')
    case 'work-no-day':
      return say('Change that line of the log.')
    case 'broken-links':
    case 'rule-broken':
    case 'database-damaged':
      return say('Restore the newest good backup.')
    default:
      return null
  }
}

/** Where a fault's thing is shown; null where it has no page. */
export function faultHref({ noun, linkId }: Concerned): string | null {
  if (linkId === null) return null
  switch (noun) {
    case 'batch':
      return `/threads/${linkId}`
    case 'cloth':
      return `/cloth/${linkId}`
    case 'chart':
    case 'kept-file':
      return `/charts/${linkId}`
    case 'notion':
      return `/notions/${linkId}`
    case 'place':
      return `/places/${linkId}`
    case 'project':
    case 'work':
      return `/projects/${linkId}`
    case 'loan':
      return `/loans/${linkId}`
    case 'label':
    case 'pair':
    case 'collection':
    case 'table':
    case 'disk':
      return null
  }
}

/** What must not be before what is worth a look, and as they are named. */
export const byWeight = (a: FaultKind, b: FaultKind): number =>
  Number(weightOf(a) === 'mind') - Number(weightOf(b) === 'mind') || faultTitles[a].localeCompare(faultTitles[b], 'en')
