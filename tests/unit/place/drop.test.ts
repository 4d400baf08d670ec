import { expect, it } from 'vitest'
import { dropMeans } from '#lib/place/drop'
import { placeKinds } from '#lib/place/place'
import { draggedOf, placeIdOf } from '../../../app/_drag/dragged'

// What is carried and who carries it, against what stands: common practice, no published source.
it('takes for a while into bags, rings and hands, and lets live in everything that stands', () => {
  const taken = placeKinds.filter((kind) => dropMeans(kind) === 'take')
  expect(taken).toEqual(['bag', 'ring', 'person', 'framer', 'finisher', 'model stitcher'])
})

it('knows what is dragged, and where to, by the address of its page', () => {
  const id = '0197f3a2-0000-7000-8000-000000000001'
  expect(draggedOf(`/threads/${id}`)).toEqual({ noun: 'thread', id })
  expect(draggedOf(`/designs/${id}`)).toEqual({ noun: 'design', id })
  for (const href of ['/threads/new', `/threads/${id}/edit`, `/cloth/${id}`, 'https://elsewhere'])
    expect(draggedOf(href)).toBeNull()
  expect(placeIdOf(`/places/${id}`)).toBe(id)
  expect(placeIdOf(`/places/${id}/edit`)).toBeNull()
})
