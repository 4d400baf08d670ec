import { expect } from 'vitest'
import type { House } from './visitor'

type ImportKind = 'places' | 'threads' | 'cloth' | 'charts' | 'lists' | 'projects' | 'notions'

/** Bring a file of rows in over the API, which takes it as the page Bring in does. */
export async function bringRows(house: House, kind: ImportKind, rows: string) {
  const answer = await fetch(`${house.server().url}/api/v1/imports?kind=${kind}`, {
    ...{ method: 'POST', headers: { 'content-type': 'text/csv' }, body: rows },
  })
  expect(answer.status, await answer.text()).toBe(200)
}

/** Ask the API, or with a body tell it something; a refusal fails the test with its words. */
export async function askApi<Answer>(house: House, path: string, body?: object): Promise<Answer> {
  const answer = await fetch(`${house.server().url}/api/v1${path}`, {
    ...(body && { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
  })
  const said = await answer.text()
  expect(answer.ok, `${path}: ${said}`).toBe(true)
  return JSON.parse(said)
}

/** The id of an owner by name. */
export async function ownerCalled(house: House, name: string): Promise<string> {
  const { owners } = await askApi<{ owners: { id: string; name: string }[] }>(house, '/owners')
  const owner = owners.find((one) => one.name === name)
  expect(owner, name).toBeDefined()
  return owner?.id as string
}

/** The id of the place a label means. */
export async function placeLabelled(house: House, label: string): Promise<string> {
  const { meant } = await askApi<{ meant: { placeId: string } | null }>(
    house,
    `/places/by-label?label=${encodeURIComponent(label)}`,
  )
  expect(meant, label).not.toBeNull()
  return meant?.placeId as string
}

type DesignFound = { designId: string; title: string; chart: { chartId: string } }

/** A design by its title, whoever's it is. */
export async function designCalled(house: House, title: string): Promise<DesignFound> {
  const { designs } = await askApi<{ designs: DesignFound[] }>(
    house,
    `/designs?limit=200&chartOwner=any&q=${encodeURIComponent(title)}`,
  )
  const design = designs.find((one) => one.title === title)
  expect(design, title).toBeDefined()
  return design as DesignFound
}
