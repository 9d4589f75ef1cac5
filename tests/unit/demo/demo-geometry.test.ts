import { beforeAll, describe, expect, it } from 'vitest'
import { crossings } from '../../../geodata/demo/generate/crossing.ts'
import { nearestOn } from '../../../geodata/demo/generate/curve.ts'
import { type DemoFeeders, demoFeeders } from '../../../geodata/demo/generate/demo-feeders.ts'
import type { LaidSpan } from '../../../geodata/demo/generate/lay-line.ts'
import { distance, type Line } from '../../../geodata/demo/generate/plane.ts'
import { STREAMS } from '../../../geodata/demo/generate/valley.ts'

const lineOf = ({ from, to }: LaidSpan): Line => [from.at, to.at]

describe('the lines of the demo', () => {
  let demo: DemoFeeders
  let spans: LaidSpan[]
  beforeAll(() => {
    demo = demoFeeders()
    spans = [...demo.skillet.spans, ...demo.thimble.spans]
  })

  it('have about 900 and about 450 poles, and a trunk of about 40 km', () => {
    expect(demo.skillet.poles.length).toBeGreaterThan(850)
    expect(demo.skillet.poles.length).toBeLessThan(950)
    expect(demo.thimble.poles.length).toBeGreaterThan(420)
    expect(demo.thimble.poles.length).toBeLessThan(480)
    const trunkEnd = demo.skillet.branches[0]?.poles.at(-1)
    expect(trunkEnd?.alongM).toBeGreaterThan(38_000)
    expect(trunkEnd?.alongM).toBeLessThan(42_000)
  })

  it('have spans of 60 to 110 m, a curve taken straight allowed for', () => {
    const odd = spans.filter(({ from, to }) => {
      const lengthM = distance(from.at, to.at)
      return lengthM < 58 || lengthM > 110.5
    })
    expect(odd.map(({ id }) => id)).toEqual([])
  })

  it('never cross themselves or each other', () => {
    const crossed = spans.filter((span, i) =>
      spans
        .slice(i + 1)
        .some(
          (other) =>
            distance(span.from.at, other.from.at) < 300 && crossings(lineOf(span), lineOf(other)),
        ),
    )
    expect(crossed.map(({ id }) => id)).toEqual([])
  })

  it('cross a stream at most once on each branch, so that no line weaves over the water', () => {
    const branches = [...demo.skillet.branches, ...demo.thimble.branches]
    const weaving = branches.flatMap(({ plan, poles }) =>
      STREAMS.filter(
        ({ line }) =>
          crossings(
            poles.map(({ at }) => at),
            line,
          ) > 1,
      ).map(({ name }) => `${plan.series || 'trunk'} over ${name}`),
    )
    expect(weaving).toEqual([])
  })

  it('reach both sides of the creek', () => {
    const over = spans.filter((span) => STREAMS.some(({ line }) => crossings(lineOf(span), line)))
    expect(over.length).toBeGreaterThanOrEqual(4)
  })

  it('follow the roads, with some stretches across country', () => {
    const trunk = demo.skillet.poles.filter(({ series }) => series === '')
    const far = trunk.filter(({ at }) =>
      demo.roads.every(({ line }) => nearestOn(line, at).distanceM > 150),
    )
    expect(far.length / trunk.length).toBeGreaterThan(0.05)
    expect(far.length / trunk.length).toBeLessThan(0.25)
  })

  it('meet at the tie: the far pole of the one stands where the last pole of the other does', () => {
    const tie = demo.skillet.branches.find(({ plan }) => plan.isTie)?.poles.at(-1)
    const end = demo.thimble.branches[0]?.poles.at(-1)
    expect(tie?.at).toEqual(end?.at)
  })
})
