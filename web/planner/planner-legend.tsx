import { useStudy } from '../api/studies.ts'
import { useMapColours } from '../map/map-colours.ts'
import { useSelection } from '../state/selection.ts'

/** What the planner's layers mean, as long as they are drawn. */
export function PlannerLegend() {
  const { study, proposal } = useSelection()
  const colours = useMapColours()
  const hasResult = useStudy(study).data?.result !== undefined
  if (!hasResult || proposal !== null) return null
  return (
    <div>
      <p className="planner-legend-row">
        <span
          className="planner-legend-shade"
          style={{
            background: `linear-gradient(90deg, ${colours.shadeWeak}, ${colours.shadeStrong})`,
          }}
          aria-hidden="true"
        />
        Stronger shade: a bank there leaves fewer outside
      </p>
      <p>× ruled out, once zoomed in</p>
    </div>
  )
}
