import { describe, expect, it } from 'vitest'
import { classOf, voltageScale } from '../../../web/map/voltage-scale.ts'

const LIMITS = { lowVolts120: 118, highVolts120: 126 }
const THEMES = ['light', 'dark'] as const
const PAPER = { light: '#f7f4ec', dark: '#1b1c18' } as const

type Triple = readonly [number, number, number]

function rgbOf(hex: string): Triple {
  const part = (at: number) => Number.parseInt(hex.slice(at, at + 2), 16) / 255
  return [part(1), part(3), part(5)]
}

/** sRGB to linear light (IEC 61966-2-1). */
const linear = (value: number) =>
  value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4

/** Contrast ratio of WCAG 2.2, section 1.4.11 asks 3:1 of graphical objects. */
function contrast(a: string, b: string): number {
  const luminance = (hex: string) => {
    const [r, g, blue] = rgbOf(hex).map(linear) as unknown as Triple
    return 0.2126 * r + 0.7152 * g + 0.0722 * blue
  }
  const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y) as [number, number]
  return (light + 0.05) / (dark + 0.05)
}

/**
 * Full dichromacy on linear light: G. Machado, M. Oliveira, L. Fernandes, "A physiologically-based
 * model for simulation of color vision deficiency", IEEE TVCG 15(6), 2009, severity 1; matrices
 * from memory.
 */
const SEEN_BY: Readonly<Record<string, readonly Triple[]>> = {
  'full colour vision': [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
}

/** CIE 1976 L*a*b*, D65. */
function labOf(hex: string, matrix: readonly Triple[]): Triple {
  const light = rgbOf(hex).map(linear)
  const [r, g, b] = matrix.map((row) =>
    Math.max(
      0,
      Math.min(
        1,
        row.reduce((sum, factor, at) => sum + factor * (light[at] ?? 0), 0),
      ),
    ),
  ) as unknown as Triple
  const f = (t: number) => (t > 216 / 24389 ? Math.cbrt(t) : (24389 / 27) * (t / 116) + 16 / 116)
  const x = f((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505)
  const y = f(0.2126 * r + 0.7152 * g + 0.0722 * b)
  const z = f((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089)
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)]
}

function difference(a: string, b: string, matrix: readonly Triple[]): number {
  const [one, two] = [labOf(a, matrix), labOf(b, matrix)]
  return Math.hypot(one[0] - two[0], one[1] - two[1], one[2] - two[2])
}

describe('the colour of a voltage', () => {
  it('changes exactly at the limits, and a voltage on a limit is inside', () => {
    const scale = voltageScale(LIMITS, 'light')
    expect(classOf(scale, 118).side).toBe('in')
    expect(classOf(scale, 117.99).side).toBe('low')
    expect(classOf(scale, 126).side).toBe('in')
    expect(classOf(scale, 126.01).side).toBe('high')
    expect(classOf(scale, 0).side).toBe('low')
    expect(classOf(scale, 500).side).toBe('high')
  })

  it('is the middle grey at 120 V, whatever the usual limits', () => {
    for (const lowVolts120 of [114, 116, 118]) {
      const scale = voltageScale({ lowVolts120, highVolts120: 126 }, 'light')
      expect(scale.indexOf(classOf(scale, 120))).toBe(4)
    }
  })

  it('comes from classes without gaps, each wider than nothing, wherever the limits lie', () => {
    for (const limits of [
      LIMITS,
      { lowVolts120: 0, highVolts120: 126 },
      { lowVolts120: 121, highVolts120: 123 },
    ]) {
      const scale = voltageScale(limits, 'dark')
      scale.slice(1).forEach((next, index) => {
        expect(next.fromVolts120).toBe(scale[index]?.toVolts120)
        expect(next.toVolts120).toBeGreaterThan(next.fromVolts120)
      })
    }
  })

  it.each(THEMES)('stands out from the paper by 3:1 in the %s theme', (theme) => {
    for (const { colour } of voltageScale(LIMITS, theme)) {
      expect(contrast(colour, PAPER[theme])).toBeGreaterThanOrEqual(3)
    }
  })

  it.each(Object.entries(SEEN_BY))(
    'tells low from high and from neutral with %s',
    (_who, matrix) => {
      for (const theme of THEMES) {
        const scale = voltageScale(LIMITS, theme)
        const of = (side: string) =>
          scale.filter((found) => found.side === side).map(({ colour }) => colour)
        const neutral = scale[4]?.colour ?? ''
        for (const low of of('low')) {
          for (const high of of('high')) expect(difference(low, high, matrix)).toBeGreaterThan(25)
          expect(difference(low, neutral, matrix)).toBeGreaterThan(15)
        }
        for (const high of of('high')) {
          expect(difference(high, neutral, matrix)).toBeGreaterThan(15)
        }
      }
    },
  )
})
