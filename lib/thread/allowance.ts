/**
 * What is allowed for thickness, slack, starts and ends, as a factor on the bare geometry. Ordinary is 1.2 for the thickness of the
 * cloth times 1.25 for some 4 in lost of each 18 in needleful. Common practice, no published source.
 */
export const allowanceProfiles = { 'solid blocks': 1.3, ordinary: 1.5, scattered: 1.8 } as const

export const defaultAllowance: number = allowanceProfiles.ordinary

/** One's own factor: from 1 (bare geometry) to 5, beyond which it is surely a slip. */
export const isAllowance = (factor: number): boolean => factor >= 1 && factor <= 5
