import * as cloth from '#lib/quantity/cloth-length'
import * as thread from '#lib/quantity/thread-length'
import { withDecimalMark } from './figures'

/** A length of thread with up to two decimals: "13.16 m", "13,16 m". */
export const formatThreadLength = (tenths: number, unit: thread.ThreadLengthUnit): string =>
  withDecimalMark(thread.formatThreadLength(tenths, unit))

/** A length of cloth: "12½ in", "40.6 cm", "40,6 cm". */
export const formatClothLength = (um: number, unit: cloth.LengthUnit): string =>
  withDecimalMark(cloth.formatClothLength(um, unit))

/** A size, width first: "16 × 13 in", "40,6 × 33 cm". */
export const formatClothSize = (size: { widthUm: number; heightUm: number }, unit: cloth.LengthUnit): string =>
  withDecimalMark(cloth.formatClothSize(size, unit))
