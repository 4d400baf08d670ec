// Apart from the schemas, since the mapping form's own scripts ask for them.

/** Fields whose value can be given once for all rows that say nothing. */
export const fillableFields = ['owner', 'maker', 'line', 'place'] as const

/** Names of the boxes of the mapping form. */
export const columnBox = (field: string): string => `column-${field}`
export const unitBox = (field: string): string => `unit-${field}`
export const fillBox = (field: string): string => `fill-${field}`
