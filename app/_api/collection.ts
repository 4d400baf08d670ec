import { z } from 'zod'
import { idText, orNull } from './quantities'

export const ownerQuery = {
  owner: z.array(idText).max(20).optional().meta({
    description: 'Whose threads and cloth count; several may be named. The first owner of the collection when none is.',
  }),
}

export const ownerIdsField = z.array(z.string()).meta({ description: 'Whose goods were counted.' })

export const flagQuery = z.enum(['true', 'false']).transform((flag) => flag === 'true')

export const placeRefSchema = z.strictObject({ placeId: z.string(), label: z.string() }).meta({ id: 'PlaceRef' })

export const whereaboutsFields = {
  home: orNull(placeRefSchema).meta({ description: 'Where it lives.' }),
  current: orNull(placeRefSchema).meta({ description: 'Where it is now.' }),
}

export const namedSchema = z.strictObject({ id: z.string(), name: z.string() }).meta({ id: 'Named' })

export const placeRef = (place: { id: string; label: string } | null | undefined) =>
  place ? { placeId: place.id, label: place.label } : null
