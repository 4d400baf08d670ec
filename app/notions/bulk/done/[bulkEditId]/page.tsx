import type { Metadata } from 'next'
import { NewHomeDonePage } from '../../../../_listing/new-home-pages'

export const metadata: Metadata = { title: 'Many changed' }

export default async function Done({ params }: { params: Promise<{ bulkEditId: string }> }) {
  return <NewHomeDonePage room="notions" bulkEditId={(await params).bulkEditId} />
}
