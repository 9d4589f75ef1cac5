import type { EquipmentKind } from '#domain/feeder/equipment.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { shownBanks, useTrial } from '../../state/trial.ts'
import { MARGIN, type Profile } from './use-profile.ts'

const DRAWN: Partial<Record<EquipmentKind, string>> = {
  regulator: 'Regulator',
  capacitor: 'Capacitor',
  solar: 'Solar',
}

/** Room that a label takes, pixels. */
const LABEL_WIDTH_PX = 62
const LABEL_HEIGHT_PX = 13

interface Device {
  readonly id: string
  readonly words: string
  readonly x: number
}

/** Where regulators, capacitors and plants stand on the main line; banks on trial in the accent. */
export function ProfileDevices({ profile }: { readonly profile: Profile }) {
  const { equipmentAt, distanceM } = useFeeder()
  const trial = shownBanks(useTrial())
  const standing = profile.mainPoles.flatMap((pole) =>
    (equipmentAt.get(pole) ?? []).flatMap((item) => {
      const words = DRAWN[item.kind]
      return words ? [{ id: item.id, words, x: profile.xOf(distanceM.get(pole) ?? 0) }] : []
    }),
  )
  const proposed = trial.map(({ id, pole }) => ({
    id,
    words: 'New bank',
    x: profile.xOf(distanceM.get(pole) ?? 0),
  }))
  const base = profile.yOf(profile.range[0])
  return (
    <>
      {stacked(standing).map(({ level, ...device }) => (
        <DeviceMark
          key={device.id}
          device={device}
          className="profile-device"
          profile={profile}
          labelY={base - 4 - level * LABEL_HEIGHT_PX}
        />
      ))}
      {stacked(proposed).map(({ level, ...device }) => (
        <DeviceMark
          key={device.id}
          device={device}
          className="profile-device profile-device-trial"
          profile={profile}
          labelY={MARGIN.top + 10 + level * LABEL_HEIGHT_PX}
        />
      ))}
    </>
  )
}

interface MarkProps {
  readonly device: Device
  readonly className: string
  readonly profile: Profile
  readonly labelY: number
}

/** A line at the device; its label turns to the left where the right has no room. */
function DeviceMark({ device: { words, x }, className, profile, labelY }: MarkProps) {
  const base = profile.yOf(profile.range[0])
  const isAtEnd = x + LABEL_WIDTH_PX > profile.xOf(profile.reachM) + MARGIN.right
  return (
    <g className={className}>
      <line x1={x} x2={x} y1={MARGIN.top} y2={base} />
      <text x={isAtEnd ? x - 3 : x + 3} y={labelY} textAnchor={isAtEnd ? 'end' : 'start'}>
        {words}
      </text>
    </g>
  )
}

/** A device whose label would run into the one before it gets a row of its own. */
function stacked(devices: readonly Device[]): (Device & { readonly level: number })[] {
  let level = 0
  let lastX = Number.NEGATIVE_INFINITY
  return devices
    .toSorted((a, b) => a.x - b.x)
    .map((device) => {
      level = device.x - lastX < 2 * LABEL_WIDTH_PX ? level + 1 : 0
      lastX = device.x
      return { ...device, level }
    })
}
