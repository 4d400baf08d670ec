import { say, sayings } from '#language/say'
import type { MergedField } from '#lib/chart/doubles-merged'
import type { NameReason } from '#lib/chart/doubles-names'
import type { DoubleDoubt, DoubleReason } from '#lib/chart/doubles-suggested'
import type { MergedTable } from '#lib/db/merging/keep-steps'
import type { KeptMerging, MergedNoun } from '#lib/db/merging/merging'
import type { MergingRefusal } from '#lib/db/merging/merging-refusal'
import type { ThreadReason } from '#lib/thread/doubles'
import { counted } from '#words/amounts'

export function reasonWords(reason: DoubleReason): string {
  switch (reason.kind) {
    case 'same-file':
      return say('the very same file')
    case 'same-title':
      return say('the same title, but for small words and signs')
    case 'near-title':
      return say('nearly the same title')
    case 'title-in-title':
      return say('one title is part of the other')
    case 'same-designer':
      return say('the same designer')
    case 'same-size':
      return say('the same size in stitches')
    case 'same-threads':
      return say('{shared} of {of} threads in both keys', { shared: reason.shared, of: reason.of })
    case 'same-cover':
      return reason.bits <= 6 ? say('the same cover picture') : say('a cover picture much alike')
  }
}

export function doubtWords(doubt: DoubleDoubt): string {
  switch (doubt) {
    case 'other-size':
      return say('their sizes differ')
    case 'other-designer':
      return say('their designers differ')
    case 'other-edition':
      return say('their editions differ')
    case 'other-threads':
      return say('their keys name other threads: two palettes, perhaps')
  }
}

export const nameReasonWords: Record<NameReason, string> = sayings({
  'same-name': 'the same name, but for signs, order and words like “designs”',
  'near-name': 'a letter or two apart',
  'name-in-name': 'one name is part of the other',
  initials: 'a first name shortened',
})

export const threadReasonWords: Record<ThreadReason, string> = sayings({
  'codes-read-alike': 'their codes differ in zeros, spaces, signs or O for 0 alone',
  'same-name': 'the same name',
  'same-colour': 'the same colour',
})

export const fieldWords: Record<MergedField, string> = sayings({
  title: 'Title',
  designers: 'Designers',
  kind: 'Sort of chart',
  edition: 'Edition',
  parts: 'Parts here',
  place: 'Where it lives',
  boughtOn: 'Bought',
  price: 'Price',
  outOfPrint: 'Out of print',
  cover: 'Cover picture',
  note: 'Note',
})

const nounWords: Record<MergedNoun, string> = sayings({
  chart: 'chart',
  designer: 'designer',
  thread: 'thread',
  line: 'line',
  maker: 'maker',
})

/** What was changed since, so that a merge cannot be taken back. */
function changedWords(table: MergedTable): string {
  switch (table) {
    case 'chart':
      return say('What stands of the chart itself')
    case 'design':
    case 'designTheme':
      return say('One of its designs')
    case 'threadList':
    case 'keyLineThread':
      return say('A thread list')
    case 'project':
    case 'projectSwap':
    case 'useReading':
      return say('A project')
    case 'loanLine':
    case 'walkLine':
    case 'missingThing':
      return say('A loan, a walk or an open question')
    case 'keptFile':
      return say('One of its files')
    case 'designer':
    case 'chartDesigner':
    case 'formerDesignerName':
      return say('The designers')
    case 'formerTitle':
      return say('A title it goes by')
    case 'maker':
    case 'threadLine':
      return say('The maker or the line')
    case 'thread':
    case 'formerThreadCode':
      return say('The thread, or a code it goes by')
    case 'batch':
      return say('A batch of the thread')
    case 'standIn':
    case 'conversion':
      return say('What stands in for the thread')
    case 'reorderRule':
    case 'threadOrder':
      return say('An order, or when to buy it again')
    case 'threadOffer':
    case 'buyListFor':
    case 'buyListLine':
      return say('How it is sold, or a list to shop by')
    case 'threadBarcode':
      return say('A bar code')
    case 'kitLot':
    case 'kitBagCheck':
      return say('The record of a kit')
  }
}

export function describeMergingRefusal(refusal: MergingRefusal): string {
  switch (refusal.kind) {
    case 'no-such-thing':
      return say('One of the two is there no more: no such {noun}. Look at the list anew.', { noun: nounWords[refusal.noun] })
    case 'same-thing':
      return say('These are not two. Choose another.')
    case 'changed-meanwhile':
      return say('One of the two was changed meanwhile. Look at both again.')
    case 'other-owner':
      return say(
        'One belongs to {ownerName}, the other to {otherOwnerName}. Goods of two owners are kept apart: pass one on first.',
        { ownerName: refusal.ownerName, otherOwnerName: refusal.otherOwnerName },
      )
    case 'file-and-paper':
      return say('One is a file and the other is paper. A file is no copy that can be lent or sold, so they stay two.')
    case 'is-out':
      return say('{title} lies in {label}, away from home. Put it back first.', { title: refusal.title, label: refusal.label })
    case 'is-missing':
      return say('{title} is being looked for. Settle that first.', { title: refusal.title })
    case 'strands-differ':
      return say(
        'One is worked in {strands} strands, the other in {otherStrands}. Lengths are kept by the strand: set the line right first.',
        { strands: refusal.strands, otherStrands: refusal.otherStrands },
      )
    case 'other-maker':
      return say('The lines are of two makers. Merge the makers, if they are one.')
    case 'no-such-merging':
      return say('There is no such merge.')
    case 'already-undone':
      return say('It was taken back already.')
    case 'changed-since':
      return say('{changed} was changed since, so it cannot be taken back as it was. Nothing was done.', {
        changed: changedWords(refusal.table),
      })
  }
}

/** What went along with a merge. */
export function alongWords({ merged, counts, copies }: KeptMerging): { label: string; value: string }[] {
  const said = (name: string, word: string, label: string) =>
    (counts[name] ?? 0) > 0 ? [{ label, value: counted(counts[name] as number, word) }] : []
  switch (merged.noun) {
    case 'chart':
      return [
        { label: say('Copies'), value: say('{copies, plural, one {# copy} other {# copies}} more', { copies: copies ?? 0 }) },
        ...said('united', 'design', say('Made one')),
        ...said('designs', 'design', say('Moved over')),
        ...said('lists', 'list', say('Thread lists')),
        ...said('projects', 'project', say('Projects and finishes')),
        ...said('keptFile', 'file', say('Files')),
        ...said('loanLine', 'loan', say('Loans, open and past')),
      ]
    case 'designer':
      return said('charts', 'chart', say('Charts'))
    case 'thread':
      return [...said('batches', 'batch', say('Stock')), ...said('lists', 'list', say('Named in'))]
    case 'line':
    case 'maker':
      return [
        ...said('lines', 'line', say('Lines gone over')),
        ...said('threads', 'thread', say('Threads gone over')),
        ...said('united', 'thread', say('Made one')),
        ...said('batches', 'batch', say('Stock')),
      ]
  }
}

export const hrefOfMerged = (noun: MergedNoun, id: string): string | null => {
  switch (noun) {
    case 'chart':
      return `/charts/${id}`
    case 'designer':
      return `/charts?designer=${id}&owner=any`
    case 'thread':
      return `/threads/${id}`
    case 'line':
      return `/threads/lines/${id}`
    case 'maker':
      return `/threads?maker=${id}`
  }
}
