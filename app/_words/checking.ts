import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
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

export const checkStepWords: Record<CheckStep, string> = sayings({
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
})

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
function amountWords(noun: StockNoun, { whole, partStrandTenths }: Amount): string {
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
      return say('{labels} in {labels2}: none of them stands anywhere.', {
        labels: fault.labels.join(' in '),
        labels2: fault.labels[0],
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
        isGone: fault.isGone ? say('was removed') : say('is {status}', { status: fault.status }),
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

/** Words on the button of a repair. */
export const repairWords: Record<Repair, string> = sayings({
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
})

/** What a repair of this fault would change, before it is asked for. */
export function previewRepair(fault: Fault, repair: Repair): string {
  switch (repair) {
    case 'trust-record':
      return fault.kind === 'stock-differs'
        ? say('It stays as it is. A correction goes into the journal, so that it adds up to {isGone}.', {
            isGone: fault.isGone ? say('nothing') : amountWords(fault.noun, fault.held),
          })
        : ''
    case 'trust-journal':
      return fault.kind === 'stock-differs'
        ? fault.noun === 'cloth'
          ? say('It is marked as gone, as the journal has it. The journal gets a line that says so.')
          : say('It is set to {amount}. The journal gets a line that says so.', {
              amount: amountWords(fault.noun, fault.journal),
            })
        : ''
    case 'set-to-nothing':
      return say('What is not there is taken off the record, and a correction goes into the journal.')
    case 'leave-gone-place':
      return fault.kind === 'bag-gone'
        ? say('The project has no bag any more; give it one when you kit it again.')
        : say(
            'A home that was taken away is no home any more; what lay in such a place lies at home, or nowhere that is known. The journal gets a line.',
          )
    case 'set-out-since':
      return fault.kind === 'out-differs' && fault.isAway
        ? say('It counts as out since the journal last saw it go where it is.')
        : say('It counts as home.')
    case 'stand-higher':
      return fault.kind === 'place-in-circle'
        ? say('{labels} is put at the top, with all within it.', { labels: fault.labels[0] })
        : say('It is put into the nearest place above that stands, with all within it.')
    case 'write-path':
      return say('The way to it, and to all within it, is written anew from the places it stands in.')
    case 'let-go':
      return fault.kind === 'promise-beyond'
        ? say(
            '{projects} keep{rest} what it still has for them; the rest of the promise is let go, and can be promised of other stock.',
            { projects: listed(fault.projects), rest: fault.projects.length === 1 ? 's' : '' },
          )
        : fault.kind === 'promise-closed'
          ? say('What was promised to {project} is free again.', { project: fault.project })
          : ''
    case 'tick-off':
      return fault.kind === 'lent-twice'
        ? say('The newest loan stands; on the others it is ticked off as of today. A loan with nothing left on it is closed.')
        : say('On the loan it is ticked off as of today. A loan with nothing left on it is closed.')
    case 'close-question':
      return fault.kind === 'looked-for-twice'
        ? say('The newest question stays open; the others are closed.')
        : say('The question is closed.')
    case 'clear-name':
      return say('The project is for no day any more. Its own date stays.')
    case 'forget':
      return fault.kind === 'told-apart-gone' ? say('The pair is forgotten.') : say('That it was printed is forgotten.')
    case 'raise-revision':
      return say('The count goes on from beyond the last change, and every answer is worked out anew.')
    case 'clear-file':
      return fault.kind === 'file-missing' && fault.table === 'KeptFile'
        ? say('The file is taken off its thing.')
        : say('The photograph is named no more; the note keeps the name of its file.')
    case 'bring-back':
      return say('It is laid back from the newest good backup that has it. If none has, nothing is changed, and that is said.')
    case 'draw-thumb':
      return say('It is drawn from the photograph itself.')
    case 'set-aside':
      return say('It is put into a folder of today under uploads/set-aside, and stays there until you remove it.')
    case 'drop-snapshot':
      return say('It is thrown away, and kept anew from what the database says.')
    case 'answer-anew':
      return say('Every process that answers reads the collection anew. Nothing in it changes.')
  }
}

export function describeRepairRefusal(refusal: RepairRefused): string {
  switch (refusal.kind) {
    case 'not-offered':
      return say('That cannot be done about this.')
    case 'no-longer-there':
      return say('It has been set right meanwhile: there was nothing left to do, and nothing was changed.')
    case 'changed-meanwhile':
      return say('It is there, but not as it was told any more. Nothing was changed; check again to see how it stands.')
    case 'in-no-backup':
      return say('No good backup has that file. Nothing was changed.')
    case 'photo-unreadable':
      return say('The photograph does not read as one. Nothing was changed.')
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
  looked === of
    ? say('all {of, plural, one {# design} other {# designs}}', { of })
    : say('a sample of {looked, number} of {of, plural, one {# design} other {# designs}}', { looked, of })

/** How long it took: "in 3 seconds", "in under a second". */
const tookWords = (seconds: number): string => (seconds < 1 ? say('under a second') : counted(Math.round(seconds), 'second'))

/** What was looked at, in a few sentences. */
export function lookedWords({ looked, seconds, engine }: CheckResult): string[] {
  const { movements, things, places, promises, files, snapshot, answers } = looked
  return [
    say(
      '{movements, plural, one {# movement} other {# movements}} held against {things, plural, one {# thing} other {# things}}, {places, plural, one {# place} other {# places}}, {promises, plural, one {# promise} other {# promises}} and {files, plural, one {# file} other {# files}}, in {took}.',
      { movements, things, places, promises, files, took: tookWords(seconds) },
    ),
    engine === 'sqlite'
      ? say('The database file was read through, table by table, and every link in it followed.')
      : say('Every link was followed. The database server watches over its own files.'),
    snapshot === null
      ? say('No needs are kept for the next start: a small collection is read anew.')
      : say('Of the needs kept for the next start, {compared}.', { compared: comparedWords(snapshot) }),
    answers === null
      ? say('No answers were in memory to be compared.')
      : say('Of the answers in memory, {compared}.', { compared: comparedWords(answers) }),
  ]
}

/** "nothing found", "3 things found". */
export const foundWords = (found: number): string =>
  found === 0 ? say('nothing found') : say('{found, plural, one {# thing} other {# things}} found', { found })

/** What came of the repair that was asked for last. */
export function outcomeWords(repair: Repair, answer: Result<Repaired, RepairRefused>): string {
  if (!answer.ok) return describeRepairRefusal(answer.error)
  return answer.value.backup === null
    ? say('Done: {midSentence}.', { midSentence: midSentence(repairWords[repair]) })
    : say('Brought back from {backup}.', { backup: answer.value.backup })
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
    ...(wrong > 0 ? [say('{wrong, plural, one {# thing} other {# things}} that must not be', { wrong })] : []),
    ...(minded > 0 ? [say('{minded, plural, one {# thing} other {# things}} worth a look', { minded })] : []),
  ]
  if (!isWhole)
    return say('Broken off before the end: {rest}', { rest: found.length > 0 ? listed(found) : say('nothing found by then') })
  if (wrong === 0)
    return say('All is well: {movements, plural, one {# movement} other {# movements}} add{rest} up{rest2}', {
      movements: looked.movements,
      rest: looked.movements === 1 ? 's' : '',
      rest2:
        minded > 0
          ? say(', and {minded, plural, one {# thing} other {# things}} {minded, plural, one {is} other {are}} worth a look', {
              minded,
            })
          : '',
    })
  return say('Found {found}', { found: listed(found) })
}
