import { textKey } from '#lib/quantity/text-key'

/** Maker, line and code as former codes are found by: maker and line however they are spelt, the code exact. */
export const formerCodeKey = ({ makerName, lineName, code }: { makerName: string; lineName: string; code: string }): string =>
  JSON.stringify([textKey(makerName), textKey(lineName), code])

/** How the keys of all codes of one former maker begin. */
export const formerMakerBegin = (makerName: string): string => `${JSON.stringify([textKey(makerName)]).slice(0, -1)},`
