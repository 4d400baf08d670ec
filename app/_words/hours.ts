import { numberText } from '#language/figures'
/** Hours as a figure: "12.5". */
export const hoursFigure = (hoursTenths: number): string => numberText(Number((hoursTenths / 10).toFixed(1)))

/** "12.5 h". */
export const hoursWords = (hoursTenths: number): string => `${hoursFigure(hoursTenths)} h`
