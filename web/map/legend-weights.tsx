import { WEIGHTS } from './feeder/span-layers.tsx'

const SHOWN_AMPS = [10, 50, 200]
const STEP_PX = 84

/** Weight of the line by current. */
export function LegendWeights() {
  return (
    <svg
      width={SHOWN_AMPS.length * STEP_PX}
      height={14}
      role="img"
      aria-label="Heavier line, more current"
    >
      {WEIGHTS.filter(([amps]) => SHOWN_AMPS.includes(amps)).map(([amps, weight], index) => (
        <g key={amps} transform={`translate(${index * STEP_PX} 7)`}>
          <line x2={28} stroke="currentColor" strokeWidth={weight} />
          <text x={34} dy="0.34em">
            {amps} A
          </text>
        </g>
      ))}
    </svg>
  )
}
