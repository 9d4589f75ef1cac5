import { equipmentInWords, phaseWords } from '../../state/equipment-in-words.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { useSelection } from '../../state/selection.ts'
import { QrDrawing } from '../../ui/qr-drawing.tsx'
import { bearingText, type WayTo, wayTo } from '../places/bearing.ts'
import { notationsOf } from '../places/coordinates.ts'
import { distanceText } from '../places/distance-text.ts'
import { lineNeighbours, type Neighbour } from '../places/line-neighbours.ts'
import { accessToPole, type NearestAccess } from '../places/nearest-access.ts'
import { poleLink } from './pole-link.ts'
import { PoleMap } from './pole-map.tsx'

/** How a pole is found: map, link, coordinates, the way in, what stands next to it and hangs on it. */
export function PolePlace({ poleId }: { readonly poleId: string }) {
  const { feeder, poleById, equipmentAt } = useFeeder()
  const pole = poleById.get(poleId)
  if (!pole) return <p>The feeder no longer has this pole.</p>
  const equipment = equipmentAt.get(poleId) ?? []
  return (
    <div className="paper-place">
      <PoleMap poleId={poleId} />
      <div className="paper-place-side">
        <QrDrawing
          text={poleLink(window.location, feeder.header.id, poleId)}
          label={`Code with the link to pole ${poleId}`}
        />
        <dl className="paper-facts">
          {notationsOf(pole.at).map(({ name, text }) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{text}</dd>
            </div>
          ))}
        </dl>
      </div>
      <div className="paper-place-words">
        {pole.location && <p>{pole.location}</p>}
        <Access poleId={poleId} />
        <NextPoles poleId={poleId} />
        <p>
          <strong>Hangs on it, as recorded:</strong>{' '}
          {equipment.length === 0
            ? 'no equipment.'
            : `${equipment.map((item) => equipmentInWords(item)).join('; ')}.`}
        </p>
      </div>
    </div>
  )
}

function Access({ poleId }: { readonly poleId: string }) {
  const { feeder, poleById } = useFeeder()
  const { units } = useSelection()
  const pole = poleById.get(poleId)
  const { road, gate } = pole ? accessToPole(pole.at, feeder.access) : { road: null, gate: null }
  const inWords = ({ access, way }: NearestAccess) =>
    `${access.kind} ${access.name ?? access.id}${access.note ? ` (${access.note})` : ''}, ${wayInWords(way)}`
  const wayInWords = ({ distanceM, bearingDeg }: WayTo) =>
    `${distanceText(distanceM, units)} from the pole, ${bearingText(bearingDeg)}`
  const found = [road, gate].flatMap((one) => (one ? [inWords(one)] : []))
  return (
    <p>
      <strong>Way in:</strong>{' '}
      {found.length === 0
        ? 'no roads, tracks or gates are recorded.'
        : `${found.join('; ')}. Straight lines over the ground, not driving routes.`}
    </p>
  )
}

function NextPoles({ poleId }: { readonly poleId: string }) {
  const { feeder, trace, poleById } = useFeeder()
  const { units } = useSelection()
  const pole = poleById.get(poleId)
  const { up, down, acrossOpen } = lineNeighbours(feeder, trace, poleId)
  const line = (where: string, { poleId: id, phases }: Neighbour) => {
    const next = poleById.get(id)
    const way = pole && next ? wayTo(pole.at, next.at) : null
    const how = way ? `, ${distanceText(way.distanceM, units)}, ${bearingText(way.bearingDeg)}` : ''
    return `${where} ${id} (${phaseWords(phases)}${how})`
  }
  const all = [
    ...(up ? [line('toward the source', up)] : []),
    ...down.map((next) => line('away from it', next)),
    ...acrossOpen.map((next) => line('across an open point', next)),
  ]
  return (
    <p>
      <strong>Next poles:</strong> {all.length === 0 ? 'none.' : `${all.join('; ')}.`} If their tags
      differ, this is not pole {poleId}.
    </p>
  )
}
