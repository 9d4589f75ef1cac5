import { addressOfSelection, selectionOfAddress } from '../../state/address.ts'

/**
 * The link that leads a crew to a pole, on the server that the page came from. It names nothing but
 * feeder and pole; who may see them is still asked.
 */
export function poleLink(place: Location | URL, feederId: string, poleId: string): string {
  const plain = selectionOfAddress('')
  const search = addressOfSelection({ ...plain, person: 'crew', feeder: feederId, pole: poleId })
  return `${place.origin}${place.pathname}${search}`
}
