import { say, sayings } from '#language/say'
import type { Fault, Repair } from '#lib/checking/fault'
import type { Repaired, RepairRefused } from '#lib/db/checking/repair-fault'
import type { Result } from '#lib/result'
import { listed } from './amounts'
import { midSentence } from './capital'
import { amountWords } from './fault'

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

/** What came of the repair that was asked for last. */
export function outcomeWords(repair: Repair, answer: Result<Repaired, RepairRefused>): string {
  if (!answer.ok) return describeRepairRefusal(answer.error)
  return answer.value.backup === null
    ? say('Done: {midSentence}.', { midSentence: midSentence(repairWords[repair]) })
    : say('Brought back from {backup}.', { backup: answer.value.backup })
}
