import { type JobRun, unitStatesAt } from '#domain/jobs/job-run.ts'
import type { UnitState } from '#domain/jobs/unit-state.ts'
import { PHASES, type Phase } from '#domain/units/phases.ts'
import { switchesInWords } from './switch-words.ts'

interface Props {
  readonly run: JobRun
  readonly poleId: string
  /** Of the step; left out where it is done once for all units. */
  readonly phase: Phase | undefined
}

/** How the switches stand as far as the entries say, for the unit of the step or for all. */
export function UnitSwitches({ run, poleId, phase }: Props) {
  const states = unitStatesAt(run, poleId)
  const shown = PHASES.flatMap((each) => {
    const state = states[each]
    return state ? [{ phase: each, state }] : []
  })
  if (shown.length === 0) return null
  const own = shown.filter((unit) => unit.phase === phase)
  const others = own.length > 0 ? [] : shown
  return (
    <>
      {own.map((unit) => (
        <UnitDrawing key={unit.phase} {...unit} />
      ))}
      {others.length > 0 && (
        <details className="work-fold">
          <summary>How the switches stand</summary>
          <div className="stack">
            {others.map((unit) => (
              <UnitDrawing key={unit.phase} {...unit} />
            ))}
          </div>
        </details>
      )}
    </>
  )
}

interface UnitProps {
  readonly phase: Phase
  readonly state: UnitState
}

function UnitDrawing({ phase, state }: UnitProps) {
  const words = switchesInWords(state)
  return (
    <figure className="unit-switches">
      <svg viewBox="0 0 320 156" aria-hidden="true">
        {state.isJumperOn && <path className="unit-jumper" d="M24 84 V12 H296 V84" />}
        <path className="unit-wire" d="M8 84 H56 M264 84 H312 M36 84 V40 H132 M284 84 V40 H188" />
        <SwitchBlade x={132} y={40} isClosed={state.isBypassClosed} name="bypass" />
        <SwitchBlade x={56} y={84} isClosed={state.isSourceClosed} name="S" />
        <SwitchBlade x={208} y={84} isClosed={state.isLoadClosed} name="L" />
        {state.isUp && (
          <>
            <path className="unit-wire" d="M112 84 H136 M184 84 H208" />
            <rect className="unit-box" x={136} y={66} width={48} height={36} />
            <NeutralSide state={state} />
          </>
        )}
        <text className="unit-phase" x={160} y={91} textAnchor="middle">
          {state.isUp ? phase : 'no unit'}
        </text>
      </svg>
      <figcaption>
        <strong>{phase} phase, as recorded:</strong> {words.join('; ')}.
      </figcaption>
    </figure>
  )
}

interface BladeProps {
  readonly x: number
  readonly y: number
  readonly isClosed: boolean
  readonly name: string
}

const BLADE = 56

/** A disconnect switch: a straight blade where closed, a lifted one where open. */
function SwitchBlade({ x, y, isClosed, name }: BladeProps) {
  const end = isClosed ? `L${x + BLADE} ${y}` : `L${x + BLADE - 8} ${y - 22}`
  return (
    <g>
      <path className="unit-wire" d={`M${x} ${y} ${end}`} />
      <circle className="unit-contact" cx={x} cy={y} r={4} />
      <circle className="unit-contact" cx={x + BLADE} cy={y} r={4} />
      <text className="unit-name" x={x + BLADE / 2} y={y + 18} textAnchor="middle">
        {name}
      </text>
    </g>
  )
}

/** From SL down to the neutral and ground: a lead, or a switch where the unit has one. */
function NeutralSide({ state: { neutralSide } }: { readonly state: UnitState }) {
  const end = neutralSide === 'open' ? 'L176 122' : 'V128'
  return (
    <g>
      {neutralSide === 'solid' ? (
        <path className="unit-wire" d="M160 102 V140" />
      ) : (
        <>
          <path className="unit-wire" d={`M160 102 V108 ${end} M160 128 V140`} />
          <circle className="unit-contact" cx={160} cy={108} r={4} />
          <circle className="unit-contact" cx={160} cy={128} r={4} />
          <text className="unit-name" x={184} y={132}>
            neutral side
          </text>
        </>
      )}
      <path className="unit-wire" d="M148 140 H172 M153 145 H167 M157 150 H163" />
    </g>
  )
}
