import { apiDocument } from '#api/document'
import { endpoint, serve } from '#api/serve'
import { getDocument } from '#api/service'

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: serve(getDocument, async () => ({ ...apiDocument() })) })
