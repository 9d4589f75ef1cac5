/**
 * Places for labels one above the other, each as near to where it wants to be as the others allow:
 * neighbours that would overlap are moved together to the mean of their wishes.
 *
 * @param wanted middles that the labels want, in any order
 * @param stepPx least distance between two middles
 * @param fromPx least and `toPx` greatest middle; where there are too many labels, the foot gives way
 * @returns middles in the order of `wanted`
 */
export function spreadLabels(
  wanted: readonly number[],
  stepPx: number,
  fromPx: number,
  toPx: number,
): number[] {
  const order = wanted
    .map((_, index) => index)
    .sort((a, b) => wished(wanted, a) - wished(wanted, b))
  const blocks: Block[] = []
  for (const index of order) {
    blocks.push({ members: [index], sumPx: wished(wanted, index) })
    mergeOverlaps(blocks, stepPx, fromPx, toPx)
  }
  const places = new Array<number>(wanted.length).fill(0)
  for (const block of blocks) {
    const first = firstOf(block, stepPx, fromPx, toPx)
    for (const [at, index] of block.members.entries()) places[index] = first + at * stepPx
  }
  return places
}

interface Block {
  readonly members: readonly number[]
  /** Of what its first label would want, over all members. */
  readonly sumPx: number
}

const wished = (wanted: readonly number[], index: number): number => wanted[index] ?? 0

function mergeOverlaps(blocks: Block[], stepPx: number, fromPx: number, toPx: number): void {
  for (;;) {
    const [above, below] = blocks.slice(-2)
    if (!above || !below) return
    const endPx = firstOf(above, stepPx, fromPx, toPx) + above.members.length * stepPx
    if (endPx <= firstOf(below, stepPx, fromPx, toPx)) return
    blocks.splice(-2, 2, {
      members: [...above.members, ...below.members],
      sumPx: above.sumPx + below.sumPx - below.members.length * above.members.length * stepPx,
    })
  }
}

function firstOf({ members, sumPx }: Block, stepPx: number, fromPx: number, toPx: number): number {
  const lastPx = toPx - (members.length - 1) * stepPx
  return Math.max(fromPx, Math.min(lastPx, sumPx / members.length))
}
