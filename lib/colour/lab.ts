/** CIELAB under D65, 2° observer: L 0 to 100, a and b about −128 to 127. */
export type Lab = { L: number; a: number; b: number }
