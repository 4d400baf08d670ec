import { say } from '#language/say'
import type { ImportKind } from '#lib/importing/fields'
import type { RowWarning } from '#lib/importing/row-error'
import { midSentence } from '#words/capital'
import { capital, dateWords, describeRows, either, fieldWords, quoted } from './row-words'

export function describeWarning(warning: RowWarning, kind: ImportKind): string {
  const field = fieldWords(warning, kind)
  const words = warningWords(warning, kind)
  return field === null ? capital(words) : `${field}: ${words}`
}

function warningWords({ kind: warned, raw, accepted }: RowWarning, kind: ImportKind): string {
  const written = quoted(raw)
  const taken = quoted(accepted?.[0] ?? '')
  switch (warned) {
    case 'code-looks-like-date':
      return say(
        '{written} is a date where a code should be. A spreadsheet may well have made it of {either}. It is kept as written: put the code back in the file, as text, before it is brought in.',
        { written, either: either(accepted ?? []) || say('a code such as 3-12') },
      )
    case 'code-looks-like-power':
      return say('{written} looks like a power of ten. A spreadsheet may have made it of a longer code. It is kept as written.', {
        written,
      })
    case 'code-nearly-known':
      return say(
        '{written} is new, but {either} of the same line is known. If they are one colour, put the zeros or dashes back; a code is taken exactly as written.',
        { written, either: either(accepted ?? []) },
      )
    case 'cell-looks-like-formula':
      return say('{written} looks like a formula. It is kept as text, and nothing is worked out.', { written })
    case 'text-became-day':
      return say(
        '{written} is a date, and none belongs here. A spreadsheet may well have made it of {either}. It is kept as written.',
        { written, either: either((accepted ?? []).flatMap((code) => [code, code.replace('-', '/')])) || say('something else') },
      )
    case 'cell-shows-error':
      return say('the cell shows the error {written} and counts as blank.', { written })
    case 'formula-without-answer':
      return say(
        'a formula stands in the cell, and the file does not hold its answer. It counts as blank: open the file where it was made and save it again.',
      )
    case 'formulas-taken':
      return say(
        '{accepted, plural, one {# cell} other {# cells}} of this column filled in by formulas. Nothing is worked out here: what the file last showed is taken.',
        { accepted: Number(accepted?.[0] ?? 1) },
      )
    case 'merged-cells-filled':
      return say(
        'what stands in joined cells is taken for each of the rows they span: {accepted, plural, one {# cell} other {# cells}} filled.',
        { accepted: Number(accepted?.[0] ?? 1) },
      )
    case 'totals-row':
      return say('{written} reads as a sum of other rows and is passed over.', { written })
    case 'headers-again':
      return say('the headings stand here once more, and are passed over.')
    case 'more-codes-than-can-be-told':
      return say('{written} names more threads than can be told of one cell. The first {accepted} are taken.', {
        written,
        accepted: accepted?.[0] ?? '100',
      })
    case 'note-not-kept':
      return say('a note hangs on a cell, and there is nowhere to keep it here: {written}.', { written })
    case 'batch-moved':
      return say(
        'an earlier file had it {quotedPlace}. It is moved to {written}, not added a second time. If there is some in both, say so under “How it is read”.',
        { quotedPlace: quotedPlace(accepted?.[0]), written },
      )
    case 'batch-perhaps-moved':
      return say(
        'an earlier file has the same thread {quotedPlace}. This is taken as more of it, in {written}. If it was moved there, say so under “How it is read”.',
        { quotedPlace: quotedPlace(accepted?.[0]), written },
      )
    case 'date-could-be-two':
      return say('{written} is taken as {date}. If day and month are the other way round, say so under “How it is read”.', {
        written,
        date: dateWords(accepted?.[0]),
      })
    case 'over-assumed':
      return say('{written} does not say over how many threads. Over {accepted} is taken.', {
        written,
        accepted: accepted?.[0] ?? '2',
      })
    case 'strands-assumed':
      return say('no strands are given. {accepted} in the needle is taken.', { accepted: accepted?.[0] ?? '2' })
    case 'weave-assumed':
      return say(
        'nothing says how {written} is woven. {isBlock, select, yes {Block cloth (aida)} other {Single thread (linen, evenweave)}} is taken.',
        { written, isBlock: accepted?.[0] === 'block' },
      )
    case 'dyeing-assumed':
      return say(
        '{written} sounds dyed by hand, and nothing else says how it is dyed. {accepted} is taken, and its lots are kept apart unless a column says otherwise.',
        { written, accepted: capital(accepted?.[0] ?? 'overdyed') },
      )
    case 'count-not-square':
      return say('{written} differs in the two directions. The first figure is taken for both.', { written })
    case 'amount-not-said':
      return say('the file has no column for amounts. Each thread is taken as held, how much is not known.')
    case 'rows-disagree':
      return say('{written} here, and {taken} on other rows that speak of the same. {taken} is taken.', { written, taken })
    case 'repeated-row':
      return say('{written} stands on row {accepted} already, word for word. It counts once.', {
        written,
        accepted: accepted?.[0] ?? '',
      })
    case 'list-incomplete':
      return say(
        'the list {written} lacks {midSentence}, refused below. A list is replaced whole: mend what is missing and bring in all its rows together.',
        { written, midSentence: midSentence(describeRows((accepted ?? []).map(Number))) },
      )
    case 'old-label':
      return say(
        'the old label says {written}; that is {taken} now. {isPlaces, select, yes {Nothing of that place is changed by its old label.} other {It goes there.}}',
        { written, taken, isPlaces: kind === 'places' },
      )
    case 'former-name':
      return say('{written} was merged into {taken}. That is meant.', { written, taken })
    case 'line-assumed':
      return say('no line is given. {taken} is taken{isLists, select, yes { for this thread} other {}}.', {
        taken,
        isLists: kind === 'lists',
      })
  }
}

const quotedPlace = (label: string | undefined): string =>
  label ? say('in {place}', { place: quoted(label) }) : say('without a place')
