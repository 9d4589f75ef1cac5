import { memo, useId } from 'react'
import { PHASES, type Phase } from '#domain/units/phases.ts'
import { voltageScale } from '../../map/voltage-scale.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { useSelection } from '../../state/selection.ts'
import { useTheme } from '../../state/theme.ts'
import type { ProfileSegment } from './profile-lines.ts'
import type { Profile } from './use-profile.ts'

/** Phases are told apart by their strokes and the letters at their ends, so colour is free for voltage. */
const DASHES: Record<Phase, string | undefined> = { A: undefined, B: '7 3', C: '2 3' }

function pathOf(segments: readonly ProfileSegment[], { xOf, yOf }: Profile): string {
  let path = ''
  let lastPole: string | undefined
  let lastVolts = Number.NaN
  for (const { points } of segments) {
    points.forEach(({ pole, distanceM, volts120 }, index) => {
      const isJoined = index === 0 && pole === lastPole && volts120 === lastVolts
      if (!isJoined) {
        path += `${index === 0 ? 'M' : 'L'}${xOf(distanceM).toFixed(1)} ${yOf(volts120).toFixed(1)}`
      }
      lastPole = pole
      lastVolts = volts120
    })
  }
  return path
}

/** The curves of the three phases, in the colours of the map. */
export const ProfileCurves = memo(function ProfileCurves({
  profile,
}: {
  readonly profile: Profile
}) {
  const gradient = useId()
  const { phase: shown } = useSelection()
  const phases = shown === 'worst' ? PHASES : [shown]
  const part = (phase: Phase, isMain: boolean) =>
    profile.segments.filter((segment) => segment.phase === phase && segment.isMain === isMain)
  return (
    <g fill="none">
      <VoltageGradient id={gradient} profile={profile} />
      {phases.map((phase) => (
        <path
          key={phase}
          className="profile-lateral"
          d={pathOf(part(phase, false), profile)}
          stroke={`url(#${gradient})`}
        />
      ))}
      {phases.map((phase) => (
        <path
          key={phase}
          className="profile-ghost"
          d={pathOf(
            profile.ghost.filter((segment) => segment.phase === phase),
            profile,
          )}
        />
      ))}
      {phases.map((phase) => (
        <path
          key={phase}
          className="profile-main"
          d={pathOf(part(phase, true), profile)}
          stroke={`url(#${gradient})`}
          strokeDasharray={DASHES[phase]}
        />
      ))}
      <PhaseLetters profile={profile} phases={phases} />
    </g>
  )
})

function VoltageGradient({ id, profile }: { readonly id: string; readonly profile: Profile }) {
  const { limits } = useFeeder().feeder.header
  const scale = voltageScale(limits, useTheme())
  const [least, most] = profile.range
  const share = (volts: number) => Math.max(0, Math.min(1, (volts - least) / (most - least)))
  return (
    <linearGradient
      id={id}
      gradientUnits="userSpaceOnUse"
      x1={0}
      x2={0}
      y1={profile.yOf(least)}
      y2={profile.yOf(most)}
    >
      {scale.flatMap(({ fromVolts120, toVolts120, colour }) => [
        <stop key={`${colour} from`} offset={share(fromVolts120)} stopColor={colour} />,
        <stop key={`${colour} to`} offset={share(toVolts120)} stopColor={colour} />,
      ])}
    </linearGradient>
  )
}

/** Least pixels between letters at the end of the main line. */
const LETTER_STEP_PX = 12

interface LettersProps {
  readonly profile: Profile
  readonly phases: readonly Phase[]
}

function PhaseLetters({ profile, phases }: LettersProps) {
  const ends = phases.flatMap((phase) => {
    const last = profile.segments.findLast((segment) => segment.isMain && segment.phase === phase)
    const point = last?.points.at(-1)
    return point ? [{ phase, x: profile.xOf(point.distanceM), y: profile.yOf(point.volts120) }] : []
  })
  let lowest = Number.NEGATIVE_INFINITY
  return ends
    .sort((a, b) => a.y - b.y)
    .map(({ phase, x, y }) => {
      lowest = Math.max(y, lowest + LETTER_STEP_PX)
      return (
        <text key={phase} className="profile-letter" x={x + 6} y={lowest} dy="0.32em">
          {phase}
        </text>
      )
    })
}
