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
      return 'the very same file'
    case 'same-title':
      return 'the same title, but for small words and signs'
    case 'near-title':
      return 'nearly the same title'
    case 'title-in-title':
      return 'one title is part of the other'
    case 'same-designer':
      return 'the same designer'
    case 'same-size':
      return 'the same size in stitches'
    case 'same-threads':
      return `${reason.shared} of ${reason.of} threads in both keys`
    case 'same-cover':
      return reason.bits <= 6 ? 'the same cover picture' : 'a cover picture much alike'
  }
}

export function doubtWords(doubt: DoubleDoubt): string {
  switch (doubt) {
    case 'other-size':
      return 'their sizes differ'
    case 'other-designer':
      return 'their designers differ'
    case 'other-edition':
      return 'their editions differ'
    case 'other-threads':
      return 'their keys name other threads: two palettes, perhaps'
  }
}

export const nameReasonWords: Record<NameReason, string> = {
  'same-name': 'the same name, but for signs, order and words like “designs”',
  'near-name': 'a letter or two apart',
  'name-in-name': 'one name is part of the other',
  initials: 'a first name shortened',
}

export const threadReasonWords: Record<ThreadReason, string> = {
  'codes-read-alike': 'their codes differ in zeros, spaces, signs or O for 0 alone',
  'same-name': 'the same name',
  'same-colour': 'the same colour',
}

export const fieldWords: Record<MergedField, string> = {
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
}

const nounWords: Record<MergedNoun, string> = {
  chart: 'chart',
  designer: 'designer',
  thread: 'thread',
  line: 'line',
  maker: 'maker',
}

/** What was changed since, so that a merge cannot be taken back. */
function changedWords(table: MergedTable): string {
  switch (table) {
    case 'chart':
      return 'What stands of the chart itself'
    case 'design':
    case 'designTheme':
      return 'One of its designs'
    case 'threadList':
    case 'keyLineThread':
      return 'A thread list'
    case 'project':
    case 'projectSwap':
    case 'useReading':
      return 'A project'
    case 'loanLine':
    case 'walkLine':
    case 'missingThing':
      return 'A loan, a walk or an open question'
    case 'keptFile':
      return 'One of its files'
    case 'designer':
    case 'chartDesigner':
    case 'formerDesignerName':
      return 'The designers'
    case 'formerTitle':
      return 'A title it goes by'
    case 'maker':
    case 'threadLine':
      return 'The maker or the line'
    case 'thread':
    case 'formerThreadCode':
      return 'The thread, or a code it goes by'
    case 'batch':
      return 'A batch of the thread'
    case 'standIn':
    case 'conversion':
      return 'What stands in for the thread'
    case 'reorderRule':
    case 'threadOrder':
      return 'An order, or when to buy it again'
    case 'threadOffer':
    case 'buyListFor':
    case 'buyListLine':
      return 'How it is sold, or a list to shop by'
    case 'threadBarcode':
      return 'A bar code'
    case 'kitLot':
    case 'kitBagCheck':
      return 'The record of a kit'
  }
}

export function describeMergingRefusal(refusal: MergingRefusal): string {
  switch (refusal.kind) {
    case 'no-such-thing':
      return `One of the two is there no more: no such ${nounWords[refusal.noun]}. Look at the list anew.`
    case 'same-thing':
      return 'These are not two. Choose another.'
    case 'changed-meanwhile':
      return 'One of the two was changed meanwhile. Look at both again.'
    case 'other-owner':
      return `One belongs to ${refusal.ownerName}, the other to ${refusal.otherOwnerName}. Goods of two owners are kept apart: pass one on first.`
    case 'file-and-paper':
      return 'One is a file and the other is paper. A file is no copy that can be lent or sold, so they stay two.'
    case 'is-out':
      return `${refusal.title} lies in ${refusal.label}, away from home. Put it back first.`
    case 'is-missing':
      return `${refusal.title} is being looked for. Settle that first.`
    case 'strands-differ':
      return `One is worked in ${refusal.strands} strands, the other in ${refusal.otherStrands}. Lengths are kept by the strand: set the line right first.`
    case 'other-maker':
      return 'The lines are of two makers. Merge the makers, if they are one.'
    case 'no-such-merging':
      return 'There is no such merge.'
    case 'already-undone':
      return 'It was taken back already.'
    case 'changed-since':
      return `${changedWords(refusal.table)} was changed since, so it cannot be taken back as it was. Nothing was done.`
  }
}

/** What went along with a merge. */
export function alongWords({ merged, counts, copies }: KeptMerging): { label: string; value: string }[] {
  const said = (name: string, word: string, label: string) =>
    (counts[name] ?? 0) > 0 ? [{ label, value: counted(counts[name] as number, word) }] : []
  switch (merged.noun) {
    case 'chart':
      return [
        { label: 'Copies', value: `${counted(copies ?? 0, 'copy')} more` },
        ...said('united', 'design', 'Made one'),
        ...said('designs', 'design', 'Moved over'),
        ...said('lists', 'list', 'Thread lists'),
        ...said('projects', 'project', 'Projects and finishes'),
        ...said('keptFile', 'file', 'Files'),
        ...said('loanLine', 'loan', 'Loans, open and past'),
      ]
    case 'designer':
      return said('charts', 'chart', 'Charts')
    case 'thread':
      return [...said('batches', 'batch', 'Stock'), ...said('lists', 'list', 'Named in')]
    case 'line':
    case 'maker':
      return [
        ...said('lines', 'line', 'Lines gone over'),
        ...said('threads', 'thread', 'Threads gone over'),
        ...said('united', 'thread', 'Made one'),
        ...said('batches', 'batch', 'Stock'),
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
