import { describe, expect, it } from 'vitest'
import { refusalOf } from '#lib/db/backup/backup-refused'
import { bytesWords, checkWords, describeBackupRefusal, lastRunTrouble } from '#words/backup'

const error = (code: string, message = code) => Object.assign(new Error(message), { code })

describe('what is said of backups', () => {
  it('is how much was found when it was checked', () => {
    const holds = { charts: 0, threads: 0, cloth: 0, notions: 0, places: 0, projects: 0, movements: 1_204, photos: 38, files: 0 }
    expect(checkWords({ isGood: true, at: '', holds })).toBe('1,204 movements, 38 photos')
    expect(checkWords(null)).toBe('not checked yet')
    expect(bytesWords(1_288_989)).toBe('1.3 MB')
    expect(bytesWords(12)).toBe('1 KB')
  })

  it('is a sentence for whatever the disk or the database says, and a fault of the program is none of them', () => {
    const folder = '/mnt/stick'
    const kinds = [
      error('ENOSPC'),
      error('SQLITE_FULL', 'database or disk is full'),
      error('EROFS'),
      error('EACCES'),
      error('ENOENT'),
      error('SQLITE_CORRUPT', 'database disk image is malformed'),
      error('SQLITE_NOTADB', 'file is not a database'),
      error('SQLITE_BUSY', 'database is locked'),
      error('ERR_ASSERTION', 'no such column'),
    ].map((thrown) => refusalOf(thrown, folder)?.kind ?? null)
    expect(kinds).toEqual([
      ...['disk-full', 'disk-full', 'folder-not-writable', 'folder-not-writable', 'folder-missing'],
      ...['database-damaged', 'database-damaged', 'database-busy', null],
    ])
    expect(describeBackupRefusal({ kind: 'disk-full', folder, needBytes: 4_200_000_000 })).toBe(
      'There is not enough room in /mnt/stick: 4.2 GB are needed. Make room, or choose a folder on another disk.',
    )
  })

  it('is loud after a backup that failed, and nothing after one that was good or stopped', () => {
    expect(lastRunTrouble(null)).toBeNull()
    expect(lastRunTrouble({ at: '', ended: 'good' })).toBeNull()
    expect(lastRunTrouble({ at: '', ended: 'bad', faults: [{ kind: 'stock-differs', noun: 'batch', count: 2 }] })).toContain(
      '2 batches of thread do not hold',
    )
  })
})
