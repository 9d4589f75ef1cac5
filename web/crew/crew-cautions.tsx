/** Stands once on the page. */
export function CrewCautions() {
  return (
    <aside className="crew-cautions" aria-label="Safety">
      <h3>Before anyone climbs or touches</h3>
      <p>
        The utility's own safety rules and qualified workers govern. Treat every conductor as
        energized until it is tested and grounded. What is shown here is the record, not the line:
        switches may stand otherwise, a plant or a neighbour feeder may feed back, and bird covers
        do not insulate for people.
      </p>
    </aside>
  )
}
