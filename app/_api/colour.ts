import { z } from 'zod'
import { colourFamilies } from '#lib/colour/family'
import { labCertainties } from '#lib/colour/lab'
import { orNull } from './quantities'

const axis = z.number().min(-128).max(128)

export const labSchema = z
  .strictObject({ L: z.number().min(0).max(100), a: axis, b: axis })
  .meta({ id: 'Lab', description: 'CIELAB under D65, 2° observer.' })

export const familySchema = z.enum(colourFamilies)

/** What is known of a thread's colour. */
export const colourFields = {
  lab: orNull(labSchema),
  labCertainty: orNull(z.enum(labCertainties)).meta({ description: 'How the colour is known; a guess is rough.' }),
  family: orNull(familySchema).meta({ description: 'By a person’s word, else by its colour.' }),
  isLeaving: z.boolean().meta({ description: 'No longer made, or soon not to be.' }),
}
