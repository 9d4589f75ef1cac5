import type { Pole } from '#domain/feeder/pole.ts'
import { accessToPole, type NearestAccess } from '../jobs/places/nearest-access.ts'
import { useFeeder } from '../state/feeder.tsx'
import { useSelection } from '../state/selection.ts'
import { sideInWords, sideOfRoad } from './side-of-road.ts'
import { WayNeedle } from './way-needle.tsx'

/** Nearest road or track with the side that the pole is on, and nearest gate. */
export function PoleAccess({ pole }: { readonly pole: Pole }) {
  const { feeder } = useFeeder()
  const { road, gate } = accessToPole(pole.at, feeder.access)
  const side = road && sideOfRoad(pole.at, road.access, road.at)
  return (
    <section className="stack" aria-label="Access">
      <h3>Access</h3>
      {!road && !gate && (
        <p>No roads, tracks or gates are recorded: access.geojson of the feeder would show them.</p>
      )}
      {road && <AccessLine found={road} />}
      {road && side && <p>{sideInWords(side, road.access.name ?? `the ${road.access.kind}`)}</p>}
      {gate && <AccessLine found={gate} />}
      {(road || gate) && <p>Straight from the pole to the nearest point; not a driving route.</p>}
    </section>
  )
}

function AccessLine({ found }: { readonly found: NearestAccess }) {
  const { units } = useSelection()
  const { access, way } = found
  return (
    <div>
      <p>
        Nearest {access.kind}: <strong>{access.name ?? access.id}</strong>
        {access.note && `: ${access.note}`}
      </p>
      <WayNeedle way={way} units={units} />
    </div>
  )
}
