/** Where one says what is to be done with the things chosen of a list. */
export const bulkAddress = {
  charts: '/charts/bulk',
  threads: '/threads/bulk',
  cloth: '/cloth/bulk',
  notions: '/notions/bulk',
  projects: '/projects/bulk',
} as const
export type BulkRoom = keyof typeof bulkAddress
