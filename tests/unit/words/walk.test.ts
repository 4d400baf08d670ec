import { expect, it } from 'vitest'
import { walkTitle } from '#words/walk'

it('heads a walk with what it is for: projects to pull for, or whose things go back', () => {
  expect(walkTitle({ kind: 'pull', title: 'Rook Hill and Winter Post' })).toBe('Pull for Rook Hill and Winter Post')
  expect(walkTitle({ kind: 'put-back', title: 'Bag K-07' })).toBe('Put back: Bag K-07')
})
