import { database } from '#lib/db/client'
import { addOwner } from '#lib/db/owner/owners'

/** A process of its own that adds one owner and ends. */
await addOwner({ name: process.argv[2] as string, kind: 'own' })
await database().prisma.$disconnect()
