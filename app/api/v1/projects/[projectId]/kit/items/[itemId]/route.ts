import { answerKit } from '#api/describe-kit'
import { kitOperations } from '#api/kit-items'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { editKitItem } from '#lib/db/kit/edit-kit-item'
import { findKitItem } from '#lib/db/kit/find-kit-item'

const change = serve(kitOperations.changeItem, async ({ path, body }) => {
  const item = await findKitItem(path)
  return item ? answerKit(path.projectId, await editKitItem({ ...item, ...path, ...body })) : notFound('item', path.itemId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: change })
