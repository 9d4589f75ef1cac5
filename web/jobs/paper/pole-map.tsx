import { useId, useMemo } from 'react'
import { useFeeder } from '../../state/feeder.tsx'
import { useSelection } from '../../state/selection.ts'
import { type PictureAccess, type PolePicture, polePicture } from './pole-picture.ts'

const WIDTH_PX = 400
const HEIGHT_PX = 300

/** The pole with its neighbours, the roads, tracks and gates around it, north and a scale. */
export function PoleMap({ poleId }: { readonly poleId: string }) {
  const { feeder, trace } = useFeeder()
  const { units } = useSelection()
  const clip = useId().replaceAll(/\W/g, '')
  const picture = useMemo(
    () => polePicture(feeder, trace, poleId, { widthPx: WIDTH_PX, heightPx: HEIGHT_PX, units }),
    [feeder, trace, poleId, units],
  )
  if (!picture) return <p>Pole {poleId} is no longer on the feeder’s map.</p>
  return (
    <figure className="paper-map">
      <svg
        viewBox={`0 0 ${WIDTH_PX} ${HEIGHT_PX}`}
        role="img"
        aria-label={`Map around pole ${poleId}; north is up`}
      >
        <clipPath id={clip}>
          <rect width={WIDTH_PX} height={HEIGHT_PX} />
        </clipPath>
        <g clipPath={`url(#${clip})`}>
          {picture.access.map((one) => (
            <AccessLine key={one.id} access={one} />
          ))}
          <path className="paper-span" d={picture.spans.join('')} />
          <path className="paper-span paper-span-open" d={picture.openSpans.join('')} />
          <Poles picture={picture} />
          {picture.access.map(
            ({ id, name }) =>
              name && (
                <text key={id} className="paper-place-name" x={name.x + 4} y={name.y - 4}>
                  {name.words}
                </text>
              ),
          )}
        </g>
        <North />
        <Scale picture={picture} />
        <rect className="paper-map-frame" width={WIDTH_PX} height={HEIGHT_PX} />
      </svg>
      <figcaption>
        Thick line: the feeder; broken: open. Double line: road; dashed: track; barred: gate. North
        is up.
      </figcaption>
    </figure>
  )
}

function AccessLine({ access: { kind, path } }: { readonly access: PictureAccess }) {
  if (kind === 'gate') return <path className="paper-gate" d={path} />
  if (kind === 'track') return <path className="paper-track" d={path} />
  return (
    <>
      <path className="paper-road-edge" d={path} />
      <path className="paper-road" d={path} />
    </>
  )
}

function Poles({ picture: { poles } }: { readonly picture: PolePicture }) {
  return poles.map(({ id, x, y, isTheOne, isNamed }) => (
    <g key={id}>
      <circle className="paper-pole" cx={x} cy={y} r={isTheOne ? 4 : 2.5} />
      {isTheOne && <circle className="paper-pole-ring" cx={x} cy={y} r="10" />}
      {isNamed && (
        <text
          className={isTheOne ? 'paper-pole-id paper-pole-id-own' : 'paper-pole-id'}
          x={x + (isTheOne ? 14 : 6)}
          y={y + 4}
        >
          {id}
        </text>
      )}
    </g>
  ))
}

function North() {
  return (
    <g transform={`translate(${WIDTH_PX - 18} 30)`}>
      <path className="paper-north" d="M0 -16L6 8L0 3L-6 8Z" />
      <text className="paper-north-letter" y="20">
        N
      </text>
    </g>
  )
}

function Scale({ picture: { scale, heightPx } }: { readonly picture: PolePicture }) {
  const y = heightPx - 10
  return (
    <g>
      <path className="paper-scale" d={`M10 ${y - 5}V${y}H${10 + scale.lengthPx}V${y - 5}`} />
      <text className="paper-scale-words" x={16 + scale.lengthPx} y={y}>
        {scale.words}
      </text>
    </g>
  )
}
