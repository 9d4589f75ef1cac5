import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Position } from '#domain/feeder/geometry.ts'

export interface FeederPicture {
  readonly widthPx: number
  readonly heightPx: number
  /** One path through all spans. */
  readonly line: string
  readonly poles: readonly { readonly id: string; readonly x: number; readonly y: number }[]
}

const MARGIN_PX = 8

/**
 * The feeder in the plane: degrees of longitude shortened by the cosine of the latitude, which is
 * near enough over one feeder. North is up.
 */
export function feederPicture(
  { poles, spans }: Feeder,
  widthPx: number,
  mostHeightPx: number,
): FeederPicture {
  const real = poles.filter(({ isAnonymousNode }) => !isAnonymousNode)
  const places = [...real.map(({ at }) => at), ...spans.flatMap(({ path }) => path)]
  const [first = [0, 0] as Position] = places
  const squeeze = Math.cos((first[1] * Math.PI) / 180)
  const flat = ([longitude, latitude]: Position) => [longitude * squeeze, -latitude] as const
  const xs = places.map((at) => flat(at)[0])
  const ys = places.map((at) => flat(at)[1])
  const [left, top] = [least(xs), least(ys)]
  const [across, down] = [-least(xs.map((x) => -x)) - left, -least(ys.map((y) => -y)) - top]
  const room = widthPx - 2 * MARGIN_PX
  const scale = Math.min(room / (across || 1), (mostHeightPx - 2 * MARGIN_PX) / (down || 1))
  const shown = (at: Position) => {
    const [x, y] = flat(at)
    return [round(MARGIN_PX + (x - left) * scale), round(MARGIN_PX + (y - top) * scale)] as const
  }
  return {
    widthPx: round(across * scale + 2 * MARGIN_PX),
    heightPx: round(down * scale + 2 * MARGIN_PX),
    line: spans.map(({ path }) => `M${path.map((at) => shown(at).join(' ')).join('L')}`).join(''),
    poles: real.map(({ id, at }) => {
      const [x, y] = shown(at)
      return { id, x, y }
    }),
  }
}

const least = (values: readonly number[]) =>
  values.reduce((low, value) => Math.min(low, value), Number.POSITIVE_INFINITY)
const round = (px: number) => Math.round(px * 10) / 10
