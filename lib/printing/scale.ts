/** One millimetre on paper is so many of the thing: the scales a rule or a head can work with. */
const scales = [1, 2, 2.5, 4, 5, 8, 10, 20]

/**
 * The largest of the usual scales at which something fits the room for it, as the figure after "1 :". Beyond 1 : 20 it goes on by tens.
 *
 * @throws {RangeError} if there is no room, or the thing has no size.
 */
export function largestScale(thing: { width: number; height: number }, room: { width: number; height: number }): number {
  const need = Math.max(thing.width / room.width, thing.height / room.height)
  if (!(need > 0 && Number.isFinite(need) && room.width > 0 && room.height > 0))
    throw new RangeError(`largestScale: ${thing.width} × ${thing.height} in ${room.width} × ${room.height}`)
  return scales.find((scale) => need <= scale + 1e-9) ?? Math.ceil(need / 10 - 1e-9) * 10
}
