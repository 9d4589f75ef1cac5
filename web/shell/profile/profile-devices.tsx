import type { Equipment, EquipmentKind } from '#domain/feeder/equipment.ts'
import { isBypassed } from '#domain/feeder/is-bypassed.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { shownBanks, useTrial } from '../../state/trial.ts'
import { MARGIN, type Profile } from './use-profile.ts'

const DRAWN: Partial<Record<EquipmentKind, string>> = {
  regulator: 'Regulator',
  capacitor: 'Capacitor',
  solar: 'Solar',
}

/** Room that a label takes, pixels; a letter is about half as wide as it is high. */
const LETTER_WIDTH_PX = 6.2
const LABEL_HEIGHT_PX = 13

interface Device {
  readonly id: string
  readonly words: string
  readonly x: number
}

/** What a device is called on the strip; null for what it does not show. */
function deviceWords(item: Equipment): string | null {
  const words = DRAWN[item.kind]
  if (words === undefined) return null
  return isBypassed(item) ? `${words}, bypassed` : words
}

/** Where regulators, capacitors and plants stand on the main line; banks on trial in the accent. */
export function ProfileDevices({ profile }: { readonly profile: Profile }) {
  const { equipmentAt, distanceM } = useFeeder()
  const trial = shownBanks(useTrial())
  const standing = profile.mainPoles.flatMap((pole) =>
    (equipmentAt.get(pole) ?? []).flatMap((item) => {
      const words = deviceWords(item)
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
  const isAtEnd = x + widthOf(words) > profile.xOf(profile.reachM) + MARGIN.right
  return (
    <g className={className}>
      <line x1={x} x2={x} y1={MARGIN.top} y2={base} />
      <text x={isAtEnd ? x - 3 : x + 3} y={labelY} textAnchor={isAtEnd ? 'end' : 'start'}>
        {words}
      </text>
    </g>
  )
}

function widthOf(words: string): number {
  return words.length * LETTER_WIDTH_PX
}

/** A device whose label would run into the one before it gets a row of its own. */
function stacked(devices: readonly Device[]): (Device & { readonly level: number })[] {
  let level = 0
  let last: Device | null = null
  return devices
    .toSorted((a, b) => a.x - b.x)
    .map((device) => {
      const isClear =
        last === null || device.x - last.x >= widthOf(last.words) + widthOf(device.words)
      level = isClear ? 0 : level + 1
      last = device
      return { ...device, level }
    })
}
