import type { Programme } from '#domain/avian/programme/programme.ts'
import { csvText } from '../csv-text.ts'

const HEAD = [
  'round',
  'stop',
  'pole',
  'longitude',
  'latitude',
  'measures',
  'cost_usd',
  'share_of_reduction',
  'earliest',
  'latest',
  'notes',
]

interface PlacedPole {
  readonly id: string
  readonly at: readonly [number, number]
}

/** The chosen poles in the order of driving, one a line. */
export function programmeCsv(
  { rounds, poles, reduction }: Programme,
  places: readonly PlacedPole[],
): string {
  const chosen = new Map(poles.map((pole) => [pole.pole, pole]))
  const at = new Map(places.map((place) => [place.id, place.at]))
  const rows = rounds.flatMap(({ poles: stops, earliest, latest }, round) =>
    stops.map((id, stop) => {
      const pole = chosen.get(id)
      const [longitude, latitude] = at.get(id) ?? ['', '']
      return [
        round + 1,
        stop + 1,
        id,
        longitude,
        latitude,
        (pole?.measures ?? []).map(({ kind, partIds }) => [kind, ...partIds].join(' ')).join('; '),
        pole?.costUsd ?? '',
        reduction > 0 ? Number(((pole?.reduction ?? 0) / reduction).toFixed(4)) : '',
        earliest,
        latest,
        (pole?.notes ?? []).join(' '),
      ]
    }),
  )
  return csvText(HEAD, rows)
}
