import { numberText } from '#language/figures'
import {
  type Amount,
  type Concerned,
  type Fault,
  type FaultKind,
  type Repair,
  type StockNoun,
  type Weight,
  weightOf,
} from '#lib/checking/fault'
import type { CheckResult, CheckStep } from '#lib/db/checking/check-collection'
import type { Compared } from '#lib/db/checking/find-answer-faults'
import type { Repaired, RepairRefused } from '#lib/db/checking/repair-fault'
import type { Result } from '#lib/result'
import { counted, listed } from './amounts'
import { bytesWords } from './backup'
import { midSentence } from './capital'
import { hoursWords } from './hours'

export const checkStepWords: Record<CheckStep, string> = {
  damage: 'Reading the database through',
  links: 'Following every link',
  stock: 'Adding up the journal',
  places: 'Walking the places',
  promises: 'Looking at what is promised',
  loans: 'Looking at what is lent or looked for',
  work: 'Looking at kits and logs',
  references: 'Looking at names nothing guards',
  files: 'Looking at photographs and files',
  snapshot: 'Comparing the needs kept for the next start',
  answers: 'Comparing the answers in memory',
}

/** What a group of faults is headed by. */
export const faultTitles: Record<FaultKind, string> = {
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
}

const pieces: Record<Exclude<StockNoun, 'batch'>, string> = { cloth: 'piece', chart: 'copy', notion: 'piece' }

/** "3 put-ups and 12 m of strand". */
function amountWords(noun: StockNoun, { whole, partStrandTenths }: Amount): string {
  if (noun !== 'batch') return counted(whole, pieces[noun])
  const part = `${numberText(partStrandTenths / 10_000, { maximumFractionDigits: 2 })} m of strand`
  return partStrandTenths === 0 ? counted(whole, 'put-up') : `${counted(whole, 'put-up')} and ${part}`
}

const whyBeyond = {
  gone: 'It is gone',
  'other-owner': 'It belongs to another owner',
  'not-enough': 'It holds less than was promised of it',
} as const

/** What is wrong, in a sentence. */
export function describeFault(fault: Fault): string {
  switch (fault.kind) {
    case 'stock-differs':
      return `The record says ${fault.isGone ? 'it is gone' : amountWords(fault.noun, fault.held)}; the journal adds up to ${amountWords(fault.noun, fault.journal)}.`
    case 'below-nothing':
      return `It holds ${amountWords(fault.noun, fault.held)}.`
    case 'gone-holds':
      return `It is marked as gone and holds ${amountWords('batch', fault.held)}.`
    case 'in-gone-place':
      return fault.home !== null && fault.current !== null
        ? `It lives in ${fault.home} and lies in ${fault.current}, ${fault.home === fault.current ? 'which was' : 'which were'} taken away.`
        : fault.home !== null
          ? `It lives in ${fault.home}, which was taken away.`
          : `It lies in ${fault.current}, which was taken away.`
    case 'out-differs':
      return fault.isAway ? 'It is away from home, and nothing says since when.' : 'It is not away from home, and counts as out.'
    case 'place-in-circle':
      return `${fault.labels.join(' in ')} in ${fault.labels[0]}: none of them stands anywhere.`
    case 'place-in-gone-place':
      return `It stands in ${fault.inside}, which was taken away.`
    case 'place-path-differs':
      return 'What is looked for in the places around it does not find what is in it.'
    case 'bag-gone':
      return `It is kitted in ${fault.label}, which was taken away.`
    case 'promise-closed':
      return `It is promised to ${fault.project}, which ${fault.isGone ? 'was removed' : `is ${fault.status}`}.`
    case 'promise-beyond':
      return `${whyBeyond[fault.why]}: ${listed(fault.projects)} ${fault.projects.length === 1 ? 'does' : 'do'} not get what was promised.`
    case 'lent-elsewhere':
      return fault.why === 'gone'
        ? `The loan with ${fault.withWhom} waits for it, and it is gone.`
        : fault.why === 'at-home'
          ? `The loan from ${fault.withWhom} waits for it to go back, and it counts as the house’s own, at home.`
          : `The loan to ${fault.withWhom} waits for it, and it is not with them.`
    case 'lent-twice':
      return `It is on loans with ${listed(fault.withWhom)} at once.`
    case 'lender-gone':
      return `A loan that is open is with ${fault.withWhom}, who was taken away.`
    case 'unlent-with-somebody':
      return `It is with ${fault.withWhom}, and no loan says so.`
    case 'looked-for-here':
      return fault.isGone ? 'It is looked for, and gone.' : 'It is looked for, and not out.'
    case 'looked-for-twice':
      return `It is looked for ${fault.askedIds.length + 1} times at once.`
    case 'put-back-twice':
      return `It waits on ${listed(fault.walks)}.`
    case 'cut-twice':
      return `Bag ${fault.bag} has two cuts of ${fault.thread}.`
    case 'cut-beyond':
      return `${fault.thread} was cut for bag ${fault.bag}, and there are ${counted(fault.quantity, 'bag')}.`
    case 'work-below-nothing':
      return `Its totals are ${counted(fault.stitchesDone, 'stitch')} and ${hoursWords(fault.hoursTenths)}.`
    case 'work-no-day':
      return `A line of its log is of ${fault.day || 'no day'}, which no calendar has.`
    case 'occasion-gone':
      return 'The day it is for is not kept any more.'
    case 'label-of-nothing':
      return `The label “${fault.text}” is kept as printed, and what it was of is not there.`
    case 'told-apart-gone':
      return 'One of the two is not there any more.'
    case 'revision-behind':
      return `It stands at ${numberText(fault.revision)}, and a change of ${numberText(fault.latest)} is noted: what others change may not be noticed.`
    case 'broken-links':
      return `${counted(fault.count, 'row')} name${fault.count === 1 ? 's' : ''} a row of ${fault.names} that is not there (column ${fault.column}).`
    case 'rule-broken':
      return `The database says: ${fault.says}.`
    case 'database-damaged':
      return `The database says: ${fault.says}. Keep the backups there are, stop Chart Larder and restore the newest good one.`
    case 'file-missing':
      return `It names ${fault.file}, which is not in the data folder.`
    case 'thumb-missing':
      return `Beside ${fault.file} the small one for lists is not there.`
    case 'file-unnamed':
      return `${bytesWords(fault.bytes)}; no chart, piece, notion, project or log names it.`
    case 'half-written':
      return `${bytesWords(fault.bytes)}; its writing broke off over a day ago.`
    case 'staged-old':
      return `${bytesWords(fault.bytes)}; it was kept for a day to be looked through.`
    case 'snapshot-differs':
      return `What is kept for the next start differs from the database in ${counted(fault.lists, 'design')} of ${numberText(fault.of)} looked at.`
    case 'answers-differ':
      return `What is answered differs from the database for ${counted(fault.designs, 'design')} of ${numberText(fault.of)} looked at.`
  }
}

/** What a person can do where no repair is offered. */
export function ownWayOut(kind: FaultKind): string | null {
  switch (kind) {
    case 'stock-differs':
      return 'Count it, and correct the count there.'
    case 'lender-gone':
      return 'Put the person back among the places, or close the loan.'
    case 'unlent-with-somebody':
      return 'Lend it to them, or put it home.'
    case 'put-back-twice':
      return 'End one of the lists.'
    case 'cut-twice':
    case 'cut-beyond':
      return 'The record of cuts is what was done: look at the bags, and note there what is so.'
    case 'work-below-nothing':
      return 'Type the total anew on the project.'
    case 'work-no-day':
      return 'Change that line of the log.'
    case 'broken-links':
    case 'rule-broken':
    case 'database-damaged':
      return 'Restore the newest good backup.'
    default:
      return null
  }
}

/** Words on the button of a repair. */
export const repairWords: Record<Repair, string> = {
  'trust-record': 'The record is right',
  'trust-journal': 'The journal is right',
  'set-to-nothing': 'It holds nothing',
  'leave-gone-place': 'Take it out of there',
  'set-out-since': 'Set it right',
  'stand-higher': 'Put it higher up',
  'write-path': 'Write the way to it',
  'let-go': 'Let the promises go',
  'tick-off': 'Tick it off',
  'close-question': 'Close the question',
  'clear-name': 'Clear the day',
  forget: 'Forget it',
  'raise-revision': 'Raise the count',
  'clear-file': 'Name it no more',
  'bring-back': 'Bring it back',
  'draw-thumb': 'Draw it anew',
  'set-aside': 'Set it aside',
  'drop-snapshot': 'Throw it away',
  'answer-anew': 'Work it out anew',
}

/** What a repair of this fault would change, before it is asked for. */
export function previewRepair(fault: Fault, repair: Repair): string {
  switch (repair) {
    case 'trust-record':
      return fault.kind === 'stock-differs'
        ? `It stays as it is. A correction goes into the journal, so that it adds up to ${fault.isGone ? 'nothing' : amountWords(fault.noun, fault.held)}.`
        : ''
    case 'trust-journal':
      return fault.kind === 'stock-differs'
        ? fault.noun === 'cloth'
          ? 'It is marked as gone, as the journal has it. The journal gets a line that says so.'
          : `It is set to ${amountWords(fault.noun, fault.journal)}. The journal gets a line that says so.`
        : ''
    case 'set-to-nothing':
      return 'What is not there is taken off the record, and a correction goes into the journal.'
    case 'leave-gone-place':
      return fault.kind === 'bag-gone'
        ? 'The project has no bag any more; give it one when you kit it again.'
        : 'A home that was taken away is no home any more; what lay in such a place lies at home, or nowhere that is known. The journal gets a line.'
    case 'set-out-since':
      return fault.kind === 'out-differs' && fault.isAway
        ? 'It counts as out since the journal last saw it go where it is.'
        : 'It counts as home.'
    case 'stand-higher':
      return fault.kind === 'place-in-circle'
        ? `${fault.labels[0]} is put at the top, with all within it.`
        : 'It is put into the nearest place above that stands, with all within it.'
    case 'write-path':
      return 'The way to it, and to all within it, is written anew from the places it stands in.'
    case 'let-go':
      return fault.kind === 'promise-beyond'
        ? `${listed(fault.projects)} keep${fault.projects.length === 1 ? 's' : ''} what it still has for them; the rest of the promise is let go, and can be promised of other stock.`
        : fault.kind === 'promise-closed'
          ? `What was promised to ${fault.project} is free again.`
          : ''
    case 'tick-off':
      return fault.kind === 'lent-twice'
        ? 'The newest loan stands; on the others it is ticked off as of today. A loan with nothing left on it is closed.'
        : `On the loan it is ticked off as of today. A loan with nothing left on it is closed.`
    case 'close-question':
      return fault.kind === 'looked-for-twice'
        ? 'The newest question stays open; the others are closed.'
        : 'The question is closed.'
    case 'clear-name':
      return 'The project is for no day any more. Its own date stays.'
    case 'forget':
      return fault.kind === 'told-apart-gone' ? 'The pair is forgotten.' : 'That it was printed is forgotten.'
    case 'raise-revision':
      return 'The count goes on from beyond the last change, and every answer is worked out anew.'
    case 'clear-file':
      return fault.kind === 'file-missing' && fault.table === 'KeptFile'
        ? 'The file is taken off its thing.'
        : 'The photograph is named no more; the note keeps the name of its file.'
    case 'bring-back':
      return 'It is laid back from the newest good backup that has it. If none has, nothing is changed, and that is said.'
    case 'draw-thumb':
      return 'It is drawn from the photograph itself.'
    case 'set-aside':
      return 'It is put into a folder of today under uploads/set-aside, and stays there until you remove it.'
    case 'drop-snapshot':
      return 'It is thrown away, and kept anew from what the database says.'
    case 'answer-anew':
      return 'Every process that answers reads the collection anew. Nothing in it changes.'
  }
}

export function describeRepairRefusal(refusal: RepairRefused): string {
  switch (refusal.kind) {
    case 'not-offered':
      return 'That cannot be done about this.'
    case 'no-longer-there':
      return 'It has been set right meanwhile: there was nothing left to do, and nothing was changed.'
    case 'changed-meanwhile':
      return 'It is there, but not as it was told any more. Nothing was changed; check again to see how it stands.'
    case 'in-no-backup':
      return 'No good backup has that file. Nothing was changed.'
    case 'photo-unreadable':
      return 'The photograph does not read as one. Nothing was changed.'
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

const comparedWords = ({ looked, of }: Compared): string =>
  looked === of ? `all ${counted(of, 'design')}` : `a sample of ${numberText(looked)} of ${counted(of, 'design')}`

/** How long it took: "in 3 seconds", "in under a second". */
const tookWords = (seconds: number): string => (seconds < 1 ? 'under a second' : counted(Math.round(seconds), 'second'))

/** What was looked at, in a few sentences. */
export function lookedWords({ looked, seconds, engine }: CheckResult): string[] {
  const { movements, things, places, promises, files, snapshot, answers } = looked
  return [
    `${counted(movements, 'movement')} held against ${counted(things, 'thing')}, ${counted(places, 'place')}, ${counted(promises, 'promise')} and ${counted(files, 'file')}, in ${tookWords(seconds)}.`,
    engine === 'sqlite'
      ? 'The database file was read through, table by table, and every link in it followed.'
      : 'Every link was followed. The database server watches over its own files.',
    snapshot === null
      ? 'No needs are kept for the next start: a small collection is read anew.'
      : `Of the needs kept for the next start, ${comparedWords(snapshot)}.`,
    answers === null ? 'No answers were in memory to be compared.' : `Of the answers in memory, ${comparedWords(answers)}.`,
  ]
}

/** "nothing found", "3 things found". */
export const foundWords = (found: number): string => (found === 0 ? 'nothing found' : `${counted(found, 'thing')} found`)

/** What came of the repair that was asked for last. */
export function outcomeWords(repair: Repair, answer: Result<Repaired, RepairRefused>): string {
  if (!answer.ok) return describeRepairRefusal(answer.error)
  return answer.value.backup === null ? `Done: ${midSentence(repairWords[repair])}.` : `Brought back from ${answer.value.backup}.`
}

/** What must not be before what is worth a look, and as they are named. */
export const byWeight = (a: FaultKind, b: FaultKind): number =>
  Number(weightOf(a) === 'mind') - Number(weightOf(b) === 'mind') || faultTitles[a].localeCompare(faultTitles[b], 'en')

/** How it stands, in one line. */
export function verdictWords({ counts, looked, isWhole }: CheckResult): string {
  const sum = (weight: Weight) =>
    (Object.keys(counts) as FaultKind[]).reduce((all, kind) => all + (weightOf(kind) === weight ? (counts[kind] ?? 0) : 0), 0)
  const [wrong, minded] = [sum('wrong'), sum('mind')]
  const found = [
    ...(wrong > 0 ? [`${counted(wrong, 'thing')} that must not be`] : []),
    ...(minded > 0 ? [`${counted(minded, 'thing')} worth a look`] : []),
  ]
  if (!isWhole) return `Broken off before the end: ${found.length > 0 ? listed(found) : 'nothing found by then'}`
  if (wrong === 0)
    return `All is well: ${counted(looked.movements, 'movement')} add${looked.movements === 1 ? 's' : ''} up${minded > 0 ? `, and ${counted(minded, 'thing')} ${minded === 1 ? 'is' : 'are'} worth a look` : ''}`
  return `Found ${listed(found)}`
}
