import type { VoltageClass } from './voltage-scale.ts'

const CLASS_PX = 33
const BAR_TOP = 8
const BAR_PX = 8

/** The classes side by side, with the casings that say outside, and the breaks below. */
export function LegendScale({ scale }: { readonly scale: readonly VoltageClass[] }) {
  const width = scale.length * CLASS_PX
  return (
    <svg width={width} height={42} role="img" aria-label={inWords(scale)}>
      {scale.map(({ colour, side }, index) => (
        <g key={colour}>
          <rect x={index * CLASS_PX} y={BAR_TOP} width={CLASS_PX} height={BAR_PX} fill={colour} />
          {side !== 'in' && <Casing side={side} x={index * CLASS_PX} colour={colour} />}
        </g>
      ))}
      {scale.slice(1).map(({ fromVolts120, side }, index) => (
        <text
          key={fromVolts120}
          className={isLimit(scale, index + 1) ? 'legend-limit' : undefined}
          x={(index + 1) * CLASS_PX}
          y={38}
          textAnchor="middle"
          data-side={side}
        >
          {fromVolts120.toFixed(fromVolts120 % 1 === 0 ? 0 : 1)}
        </text>
      ))}
    </svg>
  )
}

interface CasingProps {
  readonly side: 'low' | 'high'
  readonly x: number
  readonly colour: string
}

function Casing({ side, x, colour }: CasingProps) {
  const dashes = side === 'low' ? '5 3.5' : '0.1 4.5'
  return [BAR_TOP - 4, BAR_TOP + BAR_PX + 4].map((y) => (
    <line
      key={y}
      x1={x + 2}
      x2={x + CLASS_PX - 1}
      y1={y}
      y2={y}
      stroke={colour}
      strokeWidth={side === 'low' ? 1.5 : 2}
      strokeLinecap={side === 'low' ? 'butt' : 'round'}
      strokeDasharray={dashes}
    />
  ))
}

function isLimit(scale: readonly VoltageClass[], index: number): boolean {
  return scale[index]?.side !== scale[index - 1]?.side
}

function inWords(scale: readonly VoltageClass[]): string {
  const low = scale.findLast(({ side }) => side === 'low')?.toVolts120
  const high = scale.find(({ side }) => side === 'high')?.fromVolts120
  return `Blue with dashed edges below ${low} V, grey around 120 V, orange with dotted edges above ${high} V.`
}
