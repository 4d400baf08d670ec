import { describe, expect, it } from 'vitest'
import { isBackupName, isBroughtInName, nameBackup, nameBroughtIn } from '#lib/backup/backup-name'

describe('the name of a backup', () => {
  const at = new Date(2026, 10, 30, 2, 10, 5)

  it('says day and time by the machine’s clock', () => {
    expect(nameBackup(at, 'scheduled', '3fa9')).toBe('larder-20261130-021005-3fa9.zip')
    expect(nameBackup(at, 'before-restore', '3fa9')).toBe('larder-20261130-021005-3fa9-before-restore.zip')
    expect(nameBroughtIn(at, 'asked', '00ff')).toBe('larder-20261130-021005-00ff-brought-in.zip')
    expect(isBroughtInName('larder-20261130-021005-00ff-brought-in.zip')).toBe(true)
    expect(isBroughtInName('larder-20261130-021005-00ff.zip')).toBe(false)
    expect(() => nameBackup(at, 'asked', '../x')).toThrow(RangeError)
  })

  it('is never a path, a draft or another file', () => {
    for (const name of [
      '../larder-20261130-021005-3fa9.zip',
      'larder-20261130-021005-3fa9.zip/..',
      'larder-20261130-021005-3fa9.zip.part',
      '.draft-12-ab',
      'larder.db',
      'larder-20261130-021005-3FA9.zip',
      '',
    ])
      expect(isBackupName(name), name).toBe(false)
  })
})
