/** CIELAB under D65, 2° observer: L 0 to 100, a and b about −128 to 127. */
export type Lab = { L: number; a: number; b: number }

export const labCertainties = ['measured', 'label', 'guess'] as const
/** How a colour is known, best first: `label` is the maker's own figure, `guess` comes from a photo or a screen and is rough. */
export type LabCertainty = (typeof labCertainties)[number]
