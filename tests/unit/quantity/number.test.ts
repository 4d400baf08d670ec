import { describe, expect, it } from 'vitest'
import { parseNumber, parseWholeNumber } from '#lib/quantity/number'

describe('parseNumber', () => {
  it.each([
    ['12', 12],
    [' 12 ', 12],
    ['0', 0],
    ['1.5', 1.5],
    ['1,5', 1.5],
    ['.5', 0.5],
    ['-79.7751', -79.7751],
    ['−3', -3],
    ['1/4', 0.25],
    ['1 1/2', 1.5],
    ['1-1/2', 1.5],
    ['1 1⁄2', 1.5],
    ['½', 0.5],
    ['12½', 12.5],
    ['12 ¾', 12.75],
    ['12\u00a0½', 12.5],
    ['2⅛', 2.125],
  ])('reads %j as %d', (text, value) => expect(parseNumber(text)).toBe(value))

  it.each([
    ['1,240', 1240],
    ['1.240', 1.24],
    ['12,625', 12_625],
    ['0,625', 0.625],
    ['0.625', 0.625],
    ['1,2405', 1.2405],
    ['1234,567', 1234.567],
    ['1,240,000', 1_240_000],
    ['1.240.000', 1_240_000],
    ['1 240', 1240],
    ['1\u00a0240,5', 1240.5],
    ['1\u202f240', 1240],
    ['1,240.5', 1240.5],
    ['1.240,5', 1240.5],
  ])('takes the marks in %j for %d', (text, value) => expect(parseNumber(text)).toBe(value))

  it.each([
    '',
    ' ',
    '-',
    'NaN',
    'Infinity',
    '1e5',
    '0x10',
    '1/0',
    '12 in',
    '1,2,3',
    '1.2.3',
    '1,24,000',
    '12 34',
    '1 1/2/3',
    '5.',
    'one',
    '½½',
    '1,240,5',
    '--1',
  ])('refuses %j', (text) => expect(parseNumber(text)).toBeNull())
})

describe('parseWholeNumber', () => {
  it.each([
    ['1240', 1240],
    ['1,240', 1240],
    ['1.240', 1240],
    ['1 240', 1240],
    ['11.270', 11_270],
    ['12.0', 12],
    ['0', 0],
  ])('reads %j as %d', (text, value) => expect(parseWholeNumber(text)).toBe(value))

  it.each(['1.5', '1,5', '½', '4/2', '0.500', '-3', '', 'many', '99999999999999999999'])('refuses %j', (text) =>
    expect(parseWholeNumber(text)).toBeNull(),
  )
})
