import { select } from '../state/selection.ts'
import { type CrewView, viewText } from './crew-view.ts'

/** Opens a part of the desk; what was selected on the map is let go, except where a pole is given. */
export function openCrewView(view: CrewView, pole: string | null = null): void {
  select({ view: viewText(view), pole })
}
