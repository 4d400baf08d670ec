/** Hours as a figure: "12.5". */
export const hoursFigure = (hoursTenths: number): string => Number((hoursTenths / 10).toFixed(1)).toLocaleString('en-GB')

/** "12.5 h". */
export const hoursWords = (hoursTenths: number): string => `${hoursFigure(hoursTenths)} h`
