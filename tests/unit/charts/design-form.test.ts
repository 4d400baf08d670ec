import { describe, expect, it } from 'vitest'
import { addDesignSchema, designInputOf } from '../../../app/_charts/schema'

const read = (fields: Record<string, string>) => addDesignSchema.safeParse({ chartId: 'c1', designTitle: 'Wick Lane', ...fields })
const allowance = (fields: Record<string, string>) => {
  const input = read(fields)
  return input.success ? designInputOf(input.data, '').allowance : input.error.issues.map(({ path }) => path[0])
}

describe('the allowance of a design, as its form sends it', () => {
  it('follows the settings, takes a profile, or is its own', () => {
    expect(allowance({})).toBeNull()
    expect(allowance({ allowance: '', ownAllowance: '1.4' })).toBeNull()
    expect(allowance({ allowance: 'scattered', ownAllowance: '' })).toEqual({ profile: 'scattered' })
    expect(allowance({ allowance: 'own', ownAllowance: '1,45' })).toEqual({ profile: 'own', hundredths: 145 })
  })

  it('is asked for again where it is no allowance, or none is given', () => {
    expect(allowance({ allowance: 'own', ownAllowance: '' })).toEqual(['ownAllowance'])
    expect(allowance({ allowance: 'own', ownAllowance: '0.9' })).toEqual(['ownAllowance'])
    expect(allowance({ allowance: 'generous' })).toEqual(['allowance'])
  })
})
