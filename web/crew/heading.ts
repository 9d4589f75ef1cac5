/** What a browser tells of how the device is turned (W3C Device Orientation and Motion), degrees. */
export interface OrientationReading {
  /** About the vertical, counter-clockwise; measured from north only where `absolute` holds. */
  readonly alpha: number | null
  readonly beta: number | null
  readonly gamma: number | null
  readonly absolute: boolean
  /** Clockwise from magnetic north, where a browser tells it in place of an absolute alpha. */
  readonly webkitCompassHeading?: number | null
  /** Half-width of what that heading may be off by; negative where it is not known. */
  readonly webkitCompassAccuracy?: number | null
}

export interface Heading {
  /** Where the top of the screen points, or the back of a device held upright; clockwise, 0 to below 360. */
  readonly headingDeg: number
  /** Null where the device does not say. */
  readonly offByDeg: number | null
}

const RAD = Math.PI / 180

/**
 * Heading of a device from what its browser tells; null where that is not measured from north.
 *
 * @param screenDeg how far the picture is turned against the device, as `screen.orientation.angle`
 */
export function headingOf(reading: OrientationReading, screenDeg: number): Heading | null {
  const { webkitCompassHeading: told, webkitCompassAccuracy: accuracy } = reading
  if (typeof told === 'number' && Number.isFinite(told)) {
    const offByDeg = typeof accuracy === 'number' && accuracy >= 0 ? accuracy : null
    return { headingDeg: turned(told + screenDeg), offByDeg }
  }
  const { alpha, beta, gamma, absolute } = reading
  if (!absolute || alpha === null || beta === null || gamma === null) return null
  const own = isUpright(beta, gamma) ? backHeading(alpha, beta, gamma) : topHeading(alpha, beta)
  return { headingDeg: turned(own + screenDeg), offByDeg: null }
}

/** How far the back of the device points toward the horizon decides which axis is meant. */
function isUpright(beta: number, gamma: number): boolean {
  return Math.abs(Math.cos(beta * RAD) * Math.cos(gamma * RAD)) < Math.SQRT1_2
}

/** The device's y axis on the ground: it leans over backward where beta is beyond a quarter turn. */
function topHeading(alpha: number, beta: number): number {
  return Math.abs(beta) > 90 ? 180 - alpha : -alpha
}

/** Where the axis out of the back points: the worked example of the specification. */
function backHeading(alpha: number, beta: number, gamma: number): number {
  const [a, b, g] = [alpha * RAD, beta * RAD, gamma * RAD]
  const east = -Math.cos(a) * Math.sin(g) - Math.sin(a) * Math.sin(b) * Math.cos(g)
  const north = -Math.sin(a) * Math.sin(g) + Math.cos(a) * Math.sin(b) * Math.cos(g)
  return Math.atan2(east, north) / RAD
}

const turned = (degrees: number): number => ((degrees % 360) + 360) % 360

/** Which way to turn: "straight ahead", "to the right", "behind you, to the left". */
export function turnWords(bearingDeg: number, headingDeg: number): string {
  const offDeg = ((bearingDeg - headingDeg + 540) % 360) - 180
  const size = Math.abs(offDeg)
  const side = offDeg < 0 ? 'left' : 'right'
  if (size < 15) return 'straight ahead'
  if (size < 60) return `ahead, to the ${side}`
  if (size < 120) return `to the ${side}`
  return size < 165 ? `behind you, to the ${side}` : 'behind you'
}
