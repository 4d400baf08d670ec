import { apiDocument } from '../../../_api/document'
import { endpoint, serve } from '../../../_api/serve'
import { getDocument } from '../../../_api/service'

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: serve(getDocument, async () => ({ ...apiDocument() })) })
