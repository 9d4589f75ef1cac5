import type { Pole } from '#domain/feeder/pole.ts'
import { wayTo } from '../jobs/places/bearing.ts'
import { notationsOf } from '../jobs/places/coordinates.ts'
import { useFeeder } from '../state/feeder.tsx'
import { useSelection } from '../state/selection.ts'
import { List } from '../ui/list.tsx'
import { CopyText } from './copy-text.tsx'
import { useDevicePosition } from './device-position.ts'
import { NearMe } from './near-me.tsx'
import { NeedleNote } from './needle-note.tsx'
import { WayNeedle } from './way-needle.tsx'

/** Where a pole stands: the way from the device, words, and every notation to copy. */
export function PolePlace({ pole }: { readonly pole: Pole }) {
  const { units } = useSelection()
  const { header } = useFeeder().feeder
  const device = useDevicePosition()
  return (
    <section className="stack" aria-label="Where it stands">
      <h3>Where it stands</h3>
      {device.status === 'known' && (
        <p className="crew-way">
          <WayNeedle way={wayTo(device.at, pole.at)} units={units} hasTurn />
        </p>
      )}
      <p>{pole.location ?? 'No directions in words are recorded.'}</p>
      <NearMe units={units} />
      <NeedleNote />
      {header.coordinates === 'schematic' && (
        <p className="state-note">
          The positions of this feeder are a drawing scheme, not places: these coordinates lead
          nowhere.
        </p>
      )}
      {header.coordinates === 'invented' && (
        <p className="state-note">This feeder is invented: no pole stands at these coordinates.</p>
      )}
      <List label="Coordinates, WGS 84">
        {notationsOf(pole.at).map(({ name, text }) => (
          <CopyText key={name} name={name} text={text} />
        ))}
      </List>
    </section>
  )
}
