import { expect, it } from 'vitest'
import { changedLabels, type Label, labelKey, labelText } from '../../../lib/label/label'

const drawer: Label = { noun: 'place', thingId: 'p1', title: 'T2.1', note: 'Cabinet T', path: '/places/p1' }
const sampler: Label = { noun: 'chart', thingId: 'p1', title: 'Nine Wrens', note: '', path: '/charts/p1' }
const bag: Label = { noun: 'place', thingId: 'p2', title: 'K-07', note: '', path: '/places/p2' }

it('prints again what was never printed and what reads otherwise now', () => {
  const printed = new Map([
    [labelKey(drawer), 'T2.1\nCabinet T'],
    [labelKey(bag), 'K-7\n'],
  ])
  expect(changedLabels([drawer, sampler, bag], printed)).toEqual([sampler, bag])
})

it('tells a place and a chart with one id apart, and a title from a note', () => {
  expect(labelKey(drawer)).not.toBe(labelKey(sampler))
  expect(labelText({ title: 'T2.1', note: 'Cabinet T' })).not.toBe(labelText({ title: 'T2.1 Cabinet T', note: '' }))
})
