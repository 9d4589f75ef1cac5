import type { PointerEvent } from 'react'
import { whyUnsolved } from '../../state/case-solutions.ts'
import { hoverPole, useHoveredPole } from '../../state/hover.ts'
import { select, useSelection } from '../../state/selection.ts'
import { useShown, useShownCaseId } from '../../state/solutions.ts'
import { EmptyNote, ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { useRoom } from '../../ui/use-room.ts'
import { nearestPole } from './nearest-point.ts'
import { ProfileAxes } from './profile-axes.tsx'
import { ProfileCursor } from './profile-cursor.tsx'
import { ProfileCurves } from './profile-curves.tsx'
import { ProfileDevices } from './profile-devices.tsx'
import { ProfileReadout } from './profile-readout.tsx'
import { type Profile, useProfile } from './use-profile.ts'
import './profile.css'

/** Voltage against distance along the line, hovered and selected together with the map. */
export function ProfileStrip() {
  const [ref, room] = useRoom<HTMLDivElement>()
  const profile = useProfile(room)
  const { pole } = useSelection()
  const hovered = useHoveredPole()
  return (
    <div className="profile">
      <p className="profile-readout">
        <ProfileReadout />
      </p>
      <div className="profile-room" ref={ref}>
        {profile ? (
          <svg
            width={room.widthPx}
            height={room.heightPx}
            role="img"
            aria-label="Voltage along the line; the desk has the same figures for the selected pole."
            {...pointerOf(profile)}
          >
            <ProfileAxes profile={profile} room={room} />
            <ProfileDevices profile={profile} />
            <ProfileCurves profile={profile} />
            <ProfileCursor profile={profile} pole={pole} className="profile-selected" />
            <ProfileCursor profile={profile} pole={hovered} className="profile-hovered" />
          </svg>
        ) : (
          <NoProfile />
        )}
      </div>
    </div>
  )
}

function pointerOf(profile: Profile) {
  const poleAt = ({ clientX, clientY, currentTarget }: PointerEvent<SVGSVGElement>) => {
    const { left, top } = currentTarget.getBoundingClientRect()
    return nearestPole(profile, clientX - left, clientY - top)
  }
  return {
    onPointerMove: (event: PointerEvent<SVGSVGElement>) => hoverPole(poleAt(event)),
    onPointerLeave: () => hoverPole(null),
    onPointerUp: (event: PointerEvent<SVGSVGElement>) => select({ pole: poleAt(event) }),
  }
}

function NoProfile() {
  const { data, error, isPending, refetch } = useShown()
  const why = whyUnsolved(data, useShownCaseId())
  if (error) {
    return (
      <ErrorNote
        title="The voltages could not be computed."
        error={error}
        onRetry={() => void refetch()}
      />
    )
  }
  if (isPending) return <LoadingNote what="Computing the voltages of every load case…" />
  return why ? <EmptyNote what={`No voltages in this case. ${why}`} /> : null
}
