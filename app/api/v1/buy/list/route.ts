import { getBuyList } from '#api/buying'
import { namedThread } from '#api/describe-stock'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import type { PutUpMix } from '#lib/coverage/put-up-mix'
import { getAnswers } from '#lib/db/answers/get-answers'
import { readBuyList } from '#lib/db/order/read-buy-list'
import { readWants } from '#lib/db/order/read-wants'

const mixOf = ({ parts, putUps, strandTenths, priceMinor, by }: PutUpMix) => ({
  parts: parts.map(({ offer, packs }) => ({ ...offer, packs })),
  ...{ putUps, strandTenths, priceMinor, by },
})

const get = serve(getBuyList, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const answers = await getAnswers()
  const { design = [], list = [], project = [] } = query
  const wanted = await readWants(answers, {
    designIds: design,
    listIds: list,
    projectIds: project,
    ownerIds,
    isLeastBuying: true,
  })
  const wantOf = new Map(wanted.map((one) => [one.want.key, one]))
  const rows = await readBuyList(
    answers,
    wanted.map(({ want }) => want),
    ownerIds,
  )
  return {
    ownerIds,
    wants: wanted.map(({ designId, title, project: of, listId, by: listBy, isIncomplete }) => ({
      designId,
      title,
      projectId: of?.id ?? null,
      listId,
      listBy,
      isIncomplete,
    })),
    lines: rows.map(
      ({ line: { threadId: _threadId, standInThreadId: _standInThreadId, uses, ...line }, thread, standIn, ...row }) => ({
        ...line,
        mix: row.mix && mixOf(row.mix),
        listed: row.listed.map(({ listId, title, putUps }) => ({ listId, title, putUps })),
        thread: namedThread(thread),
        uses: uses.map(({ key, ...use }) => ({
          ...use,
          designId: wantOf.get(key)?.designId ?? '',
          projectId: wantOf.get(key)?.project?.id ?? null,
        })),
        standIn: standIn && namedThread(standIn),
      }),
    ),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
