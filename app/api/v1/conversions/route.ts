import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { noSuch } from '#api/stock-refusal'
import { addConversionsOperation, listConversionListsOperation } from '#api/swaps'
import { addConversions, type ConversionRefused, listConversionLists } from '#lib/db/thread/conversions'

const list = serve(listConversionListsOperation, async () => ({ lists: await listConversionLists() }))

function describeRefusal(refusal: ConversionRefused): Problem {
  switch (refusal.kind) {
    case 'no-such-thread':
      return noSuch('thread', 'pairs')
    case 'no-name':
      return new Problem('refused', 'The list wants a name.')
    case 'nothing-said':
      return new Problem('refused', 'The list says nothing.')
    case 'no-such-list':
      return new Problem('not-found', 'There is no such list.')
  }
}

const add = serve(addConversionsOperation, async ({ body }) => {
  const added = await addConversions(body)
  return added.ok ? added.value : describeRefusal(added.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: add })
