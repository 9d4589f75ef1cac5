import type { Position } from '../feeder/geometry.ts'

/** A place that a navigation device is to lead to. Position on WGS 84, as both forms ask. */
export interface Waypoint {
  readonly name: string
  readonly at: Position
  readonly description: string
  /** Above sea level; left out where unknown. */
  readonly elevationM?: number
}

export interface WaypointFile {
  /** What the whole file is of. */
  readonly title?: string
  /** When it was made, ISO 8601 with its zone. */
  readonly madeAt?: string
}

const XML_HEAD = '<?xml version="1.0" encoding="UTF-8"?>'
/** A hundredth of a millimetre and less is noise; written out, since XML decimals take no exponent. */
const PLACES = 9

/** GPX 1.1 (topografix.com/GPX/1/1): elements of a waypoint in the order of its schema. */
export function gpxOf(points: readonly Waypoint[], { title, madeAt }: WaypointFile = {}): string {
  const lines = points.map(
    ({ name, at: [lon, lat], description, elevationM }) =>
      `<wpt lat="${decimal(lat)}" lon="${decimal(lon)}">${[
        elevationM === undefined ? '' : element('ele', decimal(elevationM)),
        madeAt ? element('time', madeAt) : '',
        element('name', name),
        element('desc', description),
      ].join('')}</wpt>`,
  )
  const metadata = [title ? element('name', title) : '', madeAt ? element('time', madeAt) : '']
  return [
    XML_HEAD,
    '<gpx version="1.1" creator="Crossarm" xmlns="http://www.topografix.com/GPX/1/1">',
    `<metadata>${metadata.join('')}</metadata>`,
    ...lines,
    '</gpx>',
    '',
  ].join('\n')
}

/** KML 2.2 (OGC 07-147r2): one placemark a point, coordinates as longitude, latitude, height. */
export function kmlOf(points: readonly Waypoint[], { title, madeAt }: WaypointFile = {}): string {
  const placemarks = points.map(
    ({ name, at: [lon, lat], description, elevationM }) =>
      `<Placemark>${element('name', name)}${element('description', description)}${
        madeAt ? `<TimeStamp>${element('when', madeAt)}</TimeStamp>` : ''
      }<Point>${elevationM === undefined ? '' : element('altitudeMode', 'absolute')}${element(
        'coordinates',
        [lon, lat, ...(elevationM === undefined ? [] : [elevationM])].map(decimal).join(','),
      )}</Point></Placemark>`,
  )
  return [
    XML_HEAD,
    '<kml xmlns="http://www.opengis.net/kml/2.2">',
    `<Document>${title ? element('name', title) : ''}`,
    ...placemarks,
    '</Document>',
    '</kml>',
    '',
  ].join('\n')
}

const element = (name: string, text: string): string => `<${name}>${escaped(text)}</${name}>`

function decimal(value: number): string {
  if (!Number.isFinite(value)) throw new Error(`Expected a finite coordinate, got ${value}.`)
  let text = value.toFixed(PLACES)
  while (text.endsWith('0')) text = text.slice(0, -1)
  return text.endsWith('.') ? text.slice(0, -1) : text
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&apos;',
}

/** Text for XML 1.0; what its section 2.2 does not allow as a character is left out. */
function escaped(text: string): string {
  return [...text]
    .filter(isXmlCharacter)
    .map((character) => ENTITIES[character] ?? character)
    .join('')
}

function isXmlCharacter(character: string): boolean {
  const code = character.codePointAt(0) ?? 0
  const isControl = code < 0x20 && code !== 0x9 && code !== 0xa && code !== 0xd
  const isSurrogate = code >= 0xd800 && code <= 0xdfff
  return !isControl && !isSurrogate && code !== 0xfffe && code !== 0xffff
}
