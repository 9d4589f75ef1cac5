import type { OneLineBranch } from '#domain/jobs/bank-one-line.ts'
import type { PlacedBranch, Spot } from './placed-one-line.ts'

/**
 * One branch of a one-line drawing: its leads and its symbol, drawn along the way from one end to the
 * other. Forms after IEC 60617-6 and -7 and IEEE 315, from memory.
 */
export function OneLineSymbol({ placed }: { readonly placed: PlacedBranch }) {
  const { branch, from, to, foot } = placed
  const lengthPx = Math.hypot(to.x - from.x, to.y - from.y)
  const turnDeg = (Math.atan2(to.y - from.y, to.x - from.x) * 180) / Math.PI
  return (
    <g>
      <g transform={`translate(${from.x} ${from.y}) rotate(${turnDeg})`}>
        <BranchSymbol branch={branch} lengthPx={lengthPx} />
      </g>
      {foot && <NeutralLead from={from} to={to} foot={foot} />}
      <BranchLabel placed={placed} />
    </g>
  )
}

interface SymbolProps {
  readonly branch: OneLineBranch
  /** From one end to the other, along x. */
  readonly lengthPx: number
}

function BranchSymbol({ branch, lengthPx }: SymbolProps) {
  switch (branch.kind) {
    case 'conductor':
      return <path className="bank-lead" d={`M0 0H${lengthPx}`} />
    case 'source switch':
    case 'load switch':
    case 'bypass switch':
    case 'neutral-side switch':
      return <SwitchSymbol lengthPx={lengthPx} isOpen={branch.stands === 'open'} />
    case 'regulator unit':
      return <UnitSymbol lengthPx={lengthPx} />
    case 'series arrester':
      // Off the middle, where the lead of the neutral side passes.
      return <ArresterSymbol lengthPx={lengthPx} at={lengthPx / 4} />
    case 'arrester':
      return <ArresterSymbol lengthPx={lengthPx} at={lengthPx / 2} />
  }
}

/** Half the length of a blade. */
const BLADE_PX = 13

/** Disconnect switch: a blade, and a bar across at the contact that it meets. */
function SwitchSymbol({
  lengthPx,
  isOpen,
}: {
  readonly lengthPx: number
  readonly isOpen: boolean
}) {
  const [hinge, contact] = [lengthPx / 2 - BLADE_PX, lengthPx / 2 + BLADE_PX]
  const tip = isOpen ? `L${contact - 3} -14` : `H${contact}`
  return (
    <>
      <path className="bank-lead" d={`M0 0H${hinge}M${contact} 0H${lengthPx}`} />
      <path className="bank-lead" d={`M${contact} -6V6`} />
      <path className="bank-blade" d={`M${hinge} 0${tip}`} />
      <circle className="bank-joint" cx={hinge} cy="0" r="2.5" />
    </>
  )
}

const UNIT_RADIUS_PX = 17

/** Autotransformer with a ratio that changes in steps: a circle, an arc, and an arrow across it. */
function UnitSymbol({ lengthPx }: { readonly lengthPx: number }) {
  const middle = lengthPx / 2
  const r = UNIT_RADIUS_PX
  return (
    <>
      <path className="bank-lead" d={`M0 0H${middle - r}M${middle + r} 0H${lengthPx}`} />
      <circle className="bank-unit" cx={middle} cy="0" r={r} />
      <path className="bank-lead" d={`M${middle - r} 0a${r} ${r} 0 0 1 ${r} ${-r}`} />
      <path className="bank-lead" d={`M${middle - 22} 20L${middle + 22} -20`} />
      <path className="bank-arrow" d={`M${middle + 26} -24l-10 3l6 6z`} />
    </>
  )
}

/** Surge arrester: a box with an arrow into it. */
function ArresterSymbol({ lengthPx, at }: { readonly lengthPx: number; readonly at: number }) {
  return (
    <>
      <path className="bank-lead" d={`M0 0H${at - 12}M${at + 12} 0H${lengthPx}`} />
      <rect className="bank-unit" x={at - 12} y="-6" width="24" height="12" />
      <path className="bank-lead" d={`M${at - 12} 0H${at + 2}`} />
      <path className="bank-arrow" d={`M${at + 7} 0l-8 -3.5v7z`} />
    </>
  )
}

interface LeadProps {
  readonly from: Spot
  readonly to: Spot
  readonly foot: Spot
}

function NeutralLead({ from, to, foot }: LeadProps) {
  const y = (from.y + to.y) / 2 + UNIT_RADIUS_PX
  return <path className="bank-lead" d={`M${foot.x} ${y}V${foot.y}`} />
}

/** Labels stay upright; what stands open or closed says so in words too. */
function BranchLabel({ placed }: { readonly placed: PlacedBranch }) {
  const { branch, from, to } = placed
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 }
  if (branch.label === '') return null
  if (branch.kind === 'neutral-side switch') return <NeutralSideLabel branch={branch} at={middle} />
  if (from.x === to.x) {
    const isLeft = branch.id.includes('source')
    return (
      <text
        className="bank-label"
        x={middle.x + (isLeft ? -14 : 14)}
        y={middle.y + 4}
        textAnchor={isLeft ? 'end' : 'start'}
      >
        {branch.label}
      </text>
    )
  }
  if (branch.kind === 'series arrester') {
    return (
      <text className="bank-label" x={middle.x + 10} y={middle.y + 14}>
        {branch.label}
      </text>
    )
  }
  return <AcrossLabel branch={branch} at={middle} />
}

interface LabelProps {
  readonly branch: OneLineBranch
  readonly at: Spot
}

/** In two lines: the arrester of the load side stands right beside it. */
function NeutralSideLabel({ branch: { stands }, at: { x, y } }: LabelProps) {
  return (
    <text className="bank-label" x={x + 19} y={y - 2}>
      neutral-side
      <tspan x={x + 19} dy="12">
        switch, {stands}
      </tspan>
    </text>
  )
}

/** A unit's way through lies right below its bypass, so that the bypass says all beside its blade. */
function AcrossLabel({ branch: { kind, label, stands }, at: { x, y } }: LabelProps) {
  if (kind === 'bypass switch') {
    return (
      <text className="bank-label" x={x + BLADE_PX + 8} y={y - 6}>
        {`${label}, ${stands}`}
      </text>
    )
  }
  return (
    <>
      <text
        className="bank-label"
        x={x}
        y={y - (kind === 'regulator unit' ? 24 : 18)}
        textAnchor="middle"
      >
        {label}
      </text>
      {stands && (
        <text className="bank-label" x={x} y={y + 18} textAnchor="middle">
          {stands}
        </text>
      )}
    </>
  )
}
