import { describeClash, todayHere } from '#api/describe-loan'
import { loanOperations } from '#api/loans'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { askLending } from '#lib/db/loan/queries'
import { describeLoanRefusal } from '#words/loan'

const ask = serve(loanOperations.mayLend, async ({ query }) => {
  const { chart: chartId, copies, from, until } = query
  const answer = await askLending({ chartId, count: copies, fromOn: from, untilOn: until ?? null }, todayHere())
  if (!answer) return notFound('chart', chartId)
  const { chart, atHome, because, leavesNone, clashes, onPaper, outAt } = answer
  const name = chart.title
  const says =
    because === null
      ? null
      : describeLoanRefusal(
          because === 'is-out'
            ? { kind: because, name, placeLabel: outAt ?? '' }
            : because === 'not-so-many'
              ? { kind: because, name, atHome }
              : { kind: because, name },
        )
  return {
    chart: { chartId: chart.id, title: chart.title, kind: chart.kind, copies: chart.copies },
    ...{ atHome, because, says, leavesNone, clashes: clashes.map(describeClash) },
    onPaper: onPaper.map(({ id, title, ownerName }) => ({ chartId: id, title, ownerName })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: ask })
