/** What an archive may be at most; far beyond a chain of shops, and short of what fills a disk from a small file. */
export const archiveLimits = {
  /** The ZIP itself. */
  zipBytes: 20 * 1024 ** 3,
  parts: 2_000_000,
  /** All parts, unpacked. */
  unpackedBytes: 200 * 1024 ** 3,
  manifestBytes: 400 * 1024 ** 2,
  /** One row of a table: a bulk change over a whole shop is kept in one. */
  lineBytes: 64 * 1024 ** 2,
  /** One photo or kept file. */
  uploadBytes: 512 * 1024 ** 2,
  /** How many times larger a part may be unpacked: rows have ids, which do not pack that well. */
  ratio: 250,
  /** Parts below this are not weighed by their ratio. */
  ratioFromBytes: 1024 ** 2,
} as const
