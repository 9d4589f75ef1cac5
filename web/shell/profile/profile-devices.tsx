import type { EquipmentKind } from '#domain/feeder/equipment.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { shownBanks, useTrial } from '../../state/trial.ts'
import { MARGIN, type Profile } from './use-profile.ts'

const DRAWN: Partial<Record<EquipmentKind, string>> = {
  regulator: 'Regulator',
  capacitor: 'Capacitor',
  solar: 'Solar',
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
  const mark =
    (className: string, isTrial: boolean) => (device: { id: string; words: string; x: number }) => (
      <g key={device.id} className={className}>
        <line x1={device.x} x2={device.x} y1={MARGIN.top} y2={base} />
        <text x={device.x + 3} y={isTrial ? MARGIN.top + 10 : base - 4}>
          {device.words}
        </text>
      </g>
    )
  return (
    <>
      {standing.map(mark('profile-device', false))}
      {proposed.map(mark('profile-device profile-device-trial', true))}
    </>
  )
}
