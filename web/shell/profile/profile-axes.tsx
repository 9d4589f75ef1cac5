import { KM_PER_MILE } from '#domain/units/length.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { useSelection } from '../../state/selection.ts'
import type { Room } from '../../ui/use-room.ts'
import { roundTicks } from './round-ticks.ts'
import { MARGIN, type Profile } from './use-profile.ts'

interface Props {
  readonly profile: Profile
  readonly room: Room
}

/** Volts on the left, distance below, the limits as lines with their figures. */
export function ProfileAxes({ profile, room }: Props) {
  return (
    <g className="profile-axes">
      <LimitBand profile={profile} room={room} />
      <VoltTicks profile={profile} />
      <DistanceTicks profile={profile} room={room} />
    </g>
  )
}

function LimitBand({ profile: { yOf }, room }: Props) {
  const { lowVolts120, highVolts120 } = useFeeder().feeder.header.limits
  const right = room.widthPx - MARGIN.right
  const top = yOf(highVolts120)
  return (
    <>
      <rect
        className="profile-band"
        x={MARGIN.left}
        y={top}
        width={right - MARGIN.left}
        height={yOf(lowVolts120) - top}
      />
      {[lowVolts120, highVolts120].map((limit) => (
        <g key={limit} className="profile-limit">
          <line x1={MARGIN.left} x2={right} y1={yOf(limit)} y2={yOf(limit)} />
          <text x={MARGIN.left - 4} y={yOf(limit)} dy="0.32em" textAnchor="end">
            {limit} V
          </text>
        </g>
      ))}
    </>
  )
}

/** Pixels within which a tick would lie on the figure of a limit. */
const CLEAR_PX = 11

function VoltTicks({ profile: { range, yOf } }: { readonly profile: Profile }) {
  const { lowVolts120, highVolts120 } = useFeeder().feeder.header.limits
  const isClear = (volts: number) =>
    [lowVolts120, highVolts120].every((limit) => Math.abs(yOf(limit) - yOf(volts)) > CLEAR_PX)
  return roundTicks(range[0], range[1], 6)
    .filter(isClear)
    .map((volts) => (
      <text key={volts} x={MARGIN.left - 4} y={yOf(volts)} dy="0.32em" textAnchor="end">
        {volts} V
      </text>
    ))
}

function DistanceTicks({ profile: { reachM, xOf }, room }: Props) {
  const { units } = useSelection()
  const unitM = units === 'us' ? KM_PER_MILE * 1000 : 1000
  const base = room.heightPx - MARGIN.bottom
  return roundTicks(0, reachM / unitM, Math.max(2, Math.floor(room.widthPx / 110))).map((tick) => (
    <g key={tick}>
      <line x1={xOf(tick * unitM)} x2={xOf(tick * unitM)} y1={base} y2={base + 4} />
      <text x={xOf(tick * unitM)} y={base + 16} textAnchor="middle">
        {tick} {units === 'us' ? 'mi' : 'km'}
      </text>
    </g>
  ))
}
