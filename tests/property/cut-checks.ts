import { expect } from 'vitest'
import { type CutNode, type CutPlan, type CutRequest, nodesOf } from '#lib/cloth/cut-plan'
import { searchCuts } from '#lib/cloth/cutting/search-cuts'

/** The plan after so many steps, or when nothing is left to try. */
export function lastPlan(request: CutRequest, steps = Number.POSITIVE_INFINITY): CutPlan {
  const search = searchCuts(request)
  for (let step = 1; ; step++) {
    const { value, done } = search.next()
    if (done || step >= steps) return value
  }
}

/** Pieces and sizes wanted as bare figures; a wanted piece may have copies and a value, else it is one, worth its area. */
export function sizesAsRequest({
  pieces,
  items,
  isTurnable,
  ...rest
}: {
  pieces: readonly (readonly number[])[]
  items: readonly (readonly number[])[]
  isTurnable: boolean
} & Pick<CutRequest, 'objective' | 'gapUm' | 'leastOffcutUm'>): CutRequest {
  const ids = pieces.map((_, at) => `piece ${at}`)
  return {
    ...rest,
    seed: 1,
    pieces: pieces.map(([widthUm = 0, heightUm = 0], at) => ({ id: `piece ${at}`, widthUm, heightUm })),
    wishes: items.map(([width = 0, height = 0, copies = 1, value = width * height], at) => {
      const upright = { widthUm: width, heightUm: height, isTurned: false }
      const turned = { widthUm: height, heightUm: width, isTurned: true }
      const ways = isTurnable && width !== height ? [upright, turned] : [upright]
      return { id: `wish ${at}`, copies, value, ways: Object.fromEntries(ids.map((id) => [id, ways])) }
    }),
  }
}

/** Every half lies in its whole, straight across, and with the gap makes it up; a wanted piece is cut to one of its sizes. */
function checkNode(node: CutNode, request: CutRequest, pieceId: string): void {
  if (node.kind === 'wanted') {
    const ways = request.wishes.find(({ id }) => id === node.wishId)?.ways[pieceId] ?? []
    expect(ways).toContainEqual({ widthUm: node.widthUm, heightUm: node.heightUm, isTurned: node.isTurned })
  }
  if (node.kind !== 'cut') return
  const { first, second, gapUm } = { ...node, gapUm: request.gapUm }
  const isUp = node.way === 'up'
  const { xUm, yUm, widthUm, heightUm } = node
  expect(node.atUm).toBeGreaterThan(0)
  expect(node.atUm).toBeLessThan(isUp ? widthUm : heightUm)
  expect(first).toMatchObject(isUp ? { xUm, yUm, widthUm: node.atUm, heightUm } : { xUm, yUm, widthUm, heightUm: node.atUm })
  const rest = (isUp ? widthUm : heightUm) - node.atUm - gapUm
  if (second === null) expect(rest).toBeLessThanOrEqual(0)
  else
    expect(second).toMatchObject(
      isUp
        ? { xUm: xUm + node.atUm + gapUm, yUm, widthUm: rest, heightUm }
        : { xUm, yUm: yUm + node.atUm + gapUm, widthUm, heightUm: rest },
    )
  checkNode(first, request, pieceId)
  if (second) checkNode(second, request, pieceId)
}

/** What must hold of any plan: nothing outside, nothing twice, nothing lost, every cut from edge to edge. */
export function checkPlan(plan: CutPlan, request: CutRequest): void {
  const cut = new Map<string, number[]>()
  for (const { pieceId, root } of plan.layouts) {
    const piece = request.pieces.find(({ id }) => id === pieceId)
    expect(root).toMatchObject({ xUm: 0, yUm: 0, widthUm: piece?.widthUm, heightUm: piece?.heightUm })
    checkNode(root, request, pieceId)
    for (const node of nodesOf(root))
      if (node.kind === 'wanted') cut.set(node.wishId, [...(cut.get(node.wishId) ?? []), node.copy])
  }
  for (const { id, copies } of request.wishes) {
    const leftOut = plan.leftOut.filter(({ wishId }) => wishId === id).map(({ copy }) => copy)
    // Every copy is cut once or left out once.
    expect([...(cut.get(id) ?? []), ...leftOut].sort((a, b) => a - b)).toEqual(Array.from({ length: copies }, (_, at) => at + 1))
  }
  const boxes = plan.layouts.flatMap(({ root }) => [...nodesOf(root)])
  const area = (kind: CutNode['kind']) =>
    boxes.filter((node) => node.kind === kind).reduce((sum, { widthUm, heightUm }) => sum + widthUm * heightUm, 0)
  expect(plan.cutCount).toBe(boxes.filter(({ kind }) => kind === 'cut').length)
  expect(plan.wasteUm2).toBe(area('waste'))
  if (request.gapUm === 0) {
    const whole = plan.layouts.reduce((sum, { root }) => sum + root.widthUm * root.heightUm, 0)
    expect(area('wanted') + area('offcut') + area('waste')).toBe(whole)
  }
}
