import { useFeeder } from '../../state/feeder.tsx'
import { MARGIN, type Profile } from './use-profile.ts'

interface Props {
  readonly profile: Profile
  readonly pole: string | null
  readonly className: string
}

/** A vertical line at a pole with its voltages as dots. */
export function ProfileCursor({ profile, pole, className }: Props) {
  const { distanceM } = useFeeder()
  const atM = pole === null ? undefined : distanceM.get(pole)
  if (atM === undefined) return null
  const x = profile.xOf(atM)
  const points = profile.segments.flatMap(({ phase, points: all }) =>
    all
      .filter((point) => point.pole === pole)
      .map(({ volts120 }) => ({ phase, y: profile.yOf(volts120) })),
  )
  return (
    <g className={className}>
      <line x1={x} x2={x} y1={MARGIN.top} y2={profile.yOf(profile.range[0])} />
      {points.map(({ phase, y }) => (
        <circle key={`${phase} ${y}`} cx={x} cy={y} r={3.5} />
      ))}
    </g>
  )
}
