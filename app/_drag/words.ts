import { say } from '#language/say'
import type { DropRefused } from '#lib/db/place/drop-thing'
import { keptByRecordWords } from '#words/kept-by-record'

/** Why a row stayed where it was. */
export function describeDropRefusal(refusal: DropRefused): string {
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return say('Somebody changed it meanwhile. Look where it is now, and drag it again.')
    case 'no-such-thing':
    case 'no-such-batch':
      return say('Nothing of it is there to move: it was moved or removed meanwhile, or none is held.')
    case 'no-such-place':
      return say('That place is not there any more, or takes nothing. Choose another.')
    case 'already-there':
      return say('It is there already.')
    case 'is-a-file':
      return say('This is a file: it lies on this machine, in no box or drawer.')
    case 'is-lending':
      return say(
        '{label} is somebody: handed to them it is lent, with a day to be back by. Open the chart and press “Lend it” instead.',
        { label: refusal.label },
      )
    case 'kept-by-record':
      return keptByRecordWords(refusal.label)
    case 'several-batches':
      return say(
        'It lies in {count, plural, one {# batch} other {# batches}}, and its row does not say which is meant. Open the thread and move the one you have in hand.',
        { count: refusal.count },
      )
  }
}
