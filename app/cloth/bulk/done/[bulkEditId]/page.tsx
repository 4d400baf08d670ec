import type { Metadata } from 'next'
import { say } from '#language/say'
import { NewHomeDonePage } from '../../../../_listing/new-home-pages'

export const generateMetadata = (): Metadata => ({ title: say('Many changed') })

export default async function Done({ params }: { params: Promise<{ bulkEditId: string }> }) {
  return <NewHomeDonePage room="cloth" bulkEditId={(await params).bulkEditId} />
}
