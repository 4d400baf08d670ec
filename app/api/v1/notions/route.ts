import { answerNotion, describeNotion, notionProblem } from '#api/describe-notion'
import { addNotionOperation, listNotionsOperation } from '#api/notions'
import { chosenOwners } from '#api/owners'
import { pageOf } from '#api/paging'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { addNotion } from '#lib/db/notion/add-notion'
import { listNotions } from '#lib/db/notion/queries'
import { toBuy } from '#lib/notion/to-buy'

const list = serve(listNotionsOperation, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const notions = (await listNotions(ownerIds)).filter(
    (notion) =>
      (query.kind === undefined || notion.kind === query.kind) &&
      (query.place === undefined || notion.current?.id === query.place) &&
      (query.project === undefined || notion.usedBy?.id === query.project) &&
      (query.toBuy === undefined || (toBuy(notion) !== null) === query.toBuy),
  )
  const page = pageOf(notions, query, ({ id }) => id)
  if (page instanceof Problem) return page
  return { ownerIds, total: notions.length, notions: page.shown.map(describeNotion), next: page.next }
})

const add = serve(addNotionOperation, async ({ body }) => {
  const added = await addNotion(body)
  return added.ok ? answerNotion(added.value.id, added) : notionProblem(added.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: add })
